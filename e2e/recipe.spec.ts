// Recipe from end to end: what is asked, what is answered, that it is what the terminal answers, and
// that Mix says the same of the blend.
import type { Page } from "@playwright/test";
import { asShown, terminalOf, type Figure } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, settled, wholeFigures } from "./pages";

type Blend = { parts: { name: string; parts: number }[] };
type Found = {
  figures: Figure[];
  judgement: string;
  advice: string;
  cautions: { before: string; sentence: string }[];
  detail: { met: boolean; blends: Blend[]; in_way: { target: string } | null };
};

/** The page of Recipe, which asks and answers as that of Mix does. */
class Recipe extends Mix {
  static override async open(page: Page, question = ""): Promise<Recipe> {
    const recipe = new Recipe(page);
    await recipe.go(question ? `./#/recipe?${question}` : "./#/recipe");
    return recipe;
  }

  /** Waits until the search is over. */
  async searched(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden();
    await expect(this.judgement).not.toContainText("A first look");
    await settled(this.answer);
  }

  get toMix(): Locator {
    return this.page.getByRole("link", { name: "Open this mix in Mix" });
  }

  /** Best figure and limits of every figure by its label. */
  override async figures(): Promise<Record<string, { best: string; limits: string }>> {
    await this.searched();
    return wholeFigures(this.answer);
  }
}

const material = (key: string, price: string, inHand: string) => ({ material: key, price, bag: "70 L", in_hand: inHand });

/** Peat, perlite and grit at 18 cm of depth. */
const asked = (change: object = {}) => ({
  materials: [material("white_peat", "10", "40 L"), material("perlite_coarse", "20", ""), material("grit", "6", "30 L")],
  pot: { size: "by_depth" },
  depth: "18 cm",
  purpose: "growing_on",
  litres: "100 L",
  targets: { air: "18 %", water: "", weight: "", price: "" },
  aim: "price",
  certainty: "best_figure",
  ...change,
});

/** A question as the address carries it. */
function addressOf(question: object, path = ""): string {
  return Object.entries(question)
    .map(([key, value]) => {
      const at = path ? `${path}.${key}` : key;
      return typeof value === "string" ? `${at}=${encodeURIComponent(value)}` : addressOf(value, at);
    })
    .join("&");
}

async function sameAsTerminal(recipe: Recipe, question: object): Promise<Found> {
  const answer: Found = terminalOf("recipe", question);
  await answersAs(recipe, answer);
  return answer;
}

test("the cheapest mix with 20 % of air at 18 cm of depth, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Recipe/ }).click();
  const recipe = new Recipe(page);
  await expect(recipe.heading).toHaveText("Recipe");
  await expect(recipe.parts).toHaveCount(4);
  const { detail } = await sameAsTerminal(recipe, {});
  expect(detail.met).toBe(true);
  await expect(recipe.answer.locator("table.shopping tbody tr")).toHaveCount(detail.blends[0]!.parts.length);
});

test("what is aimed at, and how sure", async ({ page }) => {
  const recipe = await Recipe.open(page, addressOf(asked()));
  for (const aim of ["price", "weight", "air", "easy_water"]) {
    await recipe.field("aim").selectOption(aim);
    await sameAsTerminal(recipe, asked({ aim }));
  }
  await recipe.field("certainty").selectOption("nine_in_ten");
  await sameAsTerminal(recipe, asked({ aim: "easy_water", certainty: "nine_in_ten" }));
});

test("where none does, what stands in the way is named", async ({ page }) => {
  const targets = { air: "60 %", water: "", weight: "", price: "" };
  const recipe = await Recipe.open(page, addressOf(asked({ targets })));
  const { detail } = await sameAsTerminal(recipe, asked({ targets }));
  expect(detail.in_way!.target).toBe("air");
  await expect(recipe.answer.locator(".advice")).toHaveText(/^Air stands in the way\./);
  await expect(recipe.answer.locator(".verdict").first()).toContainText("Does not serve");
});

test("the blend opened in Mix has the same air", async ({ page }) => {
  const recipe = await Recipe.open(page, addressOf(asked({ aim: "air", certainty: "nine_in_ten" })));
  const { figures } = await sameAsTerminal(recipe, asked({ aim: "air", certainty: "nine_in_ten" }));
  await recipe.toMix.click();
  const mix = new Mix(page);
  await expect(mix.heading).toHaveText("Mix");
  const shown = await mix.figures();
  expect(shown["air in this pot, once drained"]).toEqual(asShown(figures.find((figure) => figure.name === "air")!));
  expect(shown["water in this pot, once drained"]).toEqual(asShown(figures.find((figure) => figure.name === "water")!));
});

test("the bars are a table too", async ({ page }) => {
  const recipe = await Recipe.open(page, addressOf(asked()));
  const { detail } = await sameAsTerminal(recipe, asked());
  await expect(recipe.answer.locator(".drawing svg title")).toHaveText("Parts of 20 by volume");
  await page.getByText("The drawing as a table").click();
  const rows = recipe.answer.locator("figure.drawing table tbody tr");
  for (const part of detail.blends[0]!.parts) {
    await expect(rows.filter({ hasText: part.name }).locator("td").first()).toHaveText(String(part.parts));
  }
});

test("silly numbers get a sentence, and the last good answer stays", async ({ page }) => {
  const recipe = await Recipe.open(page, addressOf(asked()));
  const good = await recipe.figures();
  for (const [path, typed, right] of [
    ["depth", "0", "18"],
    ["litres", "much", "100"],
    ["targets.air", "101", "18"],
    ["materials.1.price", "", "20"],
  ] as const) {
    await recipe.field(path).fill(typed);
    await expect(recipe.sentence(path)).toBeVisible();
    await expect(recipe.lastGood).toBeVisible();
    await recipe.field(path).fill(right);
    await expect(recipe.sentence(path)).toBeHidden();
    expect(await recipe.figures()).toEqual(good);
  }
});
