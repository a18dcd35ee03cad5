// Bed: how deep, and what a day on it is like.
import { type Figure, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, settled, type Shown, wholeFigures } from "./pages";

type Told = { depth_mm: number; chances: [number, number, number] | null };
type Run = { stands: string; of_the_question: boolean };
type Answer = {
  figures: Figure[];
  judgement: string;
  advice: string;
  cautions: { before: string; sentence: string }[];
  detail: { depth_mm: number; medium: string; depths: Told[]; runs: Run[]; others: { name: string }[]; held_to_account: string };
};

class Bed extends Mix {
  static override async open(page: Mix["page"], question = ""): Promise<Bed> {
    const bed = new Bed(page);
    await bed.go(question ? `./#/bed?${question}` : "./#/bed");
    return bed;
  }

  /** Waits until all draws are made and the flow is solved. */
  override async ranged(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden({ timeout: 30_000 });
    await expect(this.judgement).toContainText("in 10");
    await settled(this.answer);
  }

  override async figures(): Promise<Shown> {
    await this.ranged();
    return wholeFigures(this.answer);
  }

  get slider() {
    return this.page.getByLabel("Hour of the day");
  }
}

async function sameAsTerminal(bed: Bed, question: object): Promise<Answer> {
  const answer = terminalOf("bed", question) as unknown as Answer;
  await answersAs(bed, answer);
  return answer;
}

test("opens from the start with an answer, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Bed/ }).click();
  const bed = new Bed(page);
  await expect(bed.heading).toHaveText("Bed");
  const { detail } = await sameAsTerminal(bed, {});
  await expect(bed.answer.getByRole("table", { name: "Other media, best figures" }).locator("tbody tr")).toHaveCount(
    detail.others.length,
  );
  await expect(bed.answer).toContainText(detail.held_to_account);
});

test("white peat on sharp sand on a hot day: depth by depth in the drawing and behind it", async ({ page }) => {
  const bed = await Bed.open(page);
  await bed.ranged();
  await bed.chooseMaterial(0, "white peat", /^White peat/i);
  await bed.field("bed.medium").click();
  await bed.sheet.choose("sharp sand", /sharp sand/i);
  await bed.field("plant.weather").selectOption("hot");
  const parts = [
    { material: "white_peat", amount: "3", bag: "70 L" },
    { material: "perlite_coarse", amount: "1", bag: "70 L" },
    { material: "coir_pith", amount: "1", bag: "70 L" },
  ];
  const { detail } = await sameAsTerminal(bed, { parts, bed: { medium: "sand_sharp" }, plant: { weather: "hot" } });
  await expect(bed.answer.getByRole("img", { name: "How often each depth serves" })).toBeVisible();
  await bed.answer.getByText("The drawing as a table").click();
  const rows = bed.answer.getByRole("region", { name: "Depth by depth" }).locator("tbody tr");
  await expect(rows).toHaveCount(detail.depths.length);
  await expect(rows.first().locator("th")).toHaveText(/^0\s?mm$/);
});

test("the hour of the day is moved by the slider and by keys, and told in words", everySize, async ({ page }) => {
  const bed = await Bed.open(page);
  await bed.ranged();
  const told = page.locator("#bed-hour-told");
  await expect(told).toHaveText(/^13 o’clock: water \d+\s?mm deep, \d+\s?% air in the ball/);
  const shown = () =>
    page.locator("#drawn g[data-hour]").evaluateAll((groups) =>
      groups.filter((group) => getComputedStyle(group).display !== "none").map((group) => group.getAttribute("data-hour")),
    );
  expect(await shown()).toEqual(["13"]);
  await bed.slider.focus();
  await page.keyboard.press("ArrowRight");
  await expect(told).toHaveText(/^14 o’clock/);
  expect(await shown()).toEqual(["14"]);
  await page.keyboard.press("Home");
  await expect(told).toHaveText(/^0 o’clock/);
  expect(await shown()).toEqual(["0"]);
});

test("silly numbers get a sentence each, and the last good answer stays", async ({ page }) => {
  const bed = await Bed.open(page);
  const good = await bed.figures();
  for (const [path, typed, right] of [
    ["tray.level", "0", "20"],
    ["tray.level", "900", "20"],
    ["tray.wall", "5", "60"],
    ["plant.drinks", "0", "200"],
    ["plant.drinks", "lots", "200"],
  ] as const) {
    await bed.field(path).fill(typed);
    await expect(bed.lastGood, `${path} ${typed}`).toBeVisible();
    await expect(bed.sentence(path)).not.toBeEmpty();
    expect(await wholeFigures(bed.answer)).toEqual(good);
    await bed.field(path).fill(right);
    await expect(bed.lastGood).toBeHidden();
    await bed.ranged();
  }
  expect(await bed.figures()).toEqual(good);
});

test("works without a signal, keeps what was typed over a reload, and opens elsewhere by its link", async ({ page, browser, baseURL, guard }) => {
  const bed = new Bed(page);
  await bed.storedHere();
  await bed.go("./#/bed");
  await bed.ranged();
  await page.context().setOffline(true);
  await bed.field("tray.level").fill("15");
  const answered = await bed.figures();
  await expect.poll(async () => ((await bed.kept("question.bed")) as any)?.question["tray.level"]).toMatch(/^15/);
  await bed.reload();
  await expect(bed.field("tray.level")).toHaveValue("15");
  expect(await bed.figures()).toEqual(answered);
  await page.context().setOffline(false);
  await expect.poll(() => page.url()).toContain("tray.level=15");
  const elsewhere = await browser.newContext({ baseURL });
  await guard.watch(elsewhere);
  const other = new Bed(await elsewhere.newPage());
  await other.go(page.url());
  expect(await other.figures()).toEqual(answered);
  await elsewhere.close();
});

test("on paper it is one side of A4, with the cautions before what is laid", async ({ page }) => {
  const bed = await Bed.open(page, "parts.0.material=white_peat&parts.0.amount=1&bed.medium=sand_sharp");
  await bed.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
  await page.emulateMedia({ media: "print" });
  const cautions = (await bed.answer.locator(".cautions").boundingBox())!;
  const laid = (await bed.answer.locator("table.shopping").boundingBox())!;
  expect(cautions.height).toBeGreaterThan(0);
  expect(cautions.y + cautions.height).toBeLessThanOrEqual(laid.y);
  await expect(bed.slider).toBeHidden();
});
