// Bed: how deep, and what a day on it is like.
import { type Figure, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, Reckoned, settled, wholeFigures } from "./pages";

type Told = { depth_mm: number; chances: [number, number, number] | null };
type Run = { stands: string; of_the_question: boolean };
type Kind = { pot: string; pots: number };
type Answer = {
  figures: Figure[];
  judgement: string;
  advice: string;
  cautions: { before: string; sentence: string }[];
  detail: { depth_mm: number; medium: string; depths: Told[]; runs: Run[]; others: { name: string }[]; held_to_account: string; soaking: string; kinds: Kind[]; kinds_together: string };
};

class Bed extends Reckoned {
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

test("buttons go to the hours at which the tray is fullest and emptiest", async ({ page }) => {
  const bed = await Bed.open(page);
  await bed.ranged();
  const told = page.locator("#bed-hour-told");
  const deep = async () => Number(/water (\d+)/.exec((await told.textContent())!)![1]);
  await page.getByRole("button", { name: "Tray at its fullest" }).click();
  const fullest = await deep();
  await page.getByRole("button", { name: "Tray at its emptiest" }).click();
  expect(fullest).toBeGreaterThan(await deep());
  await expect(told).toHaveText(new RegExp(`^${await bed.slider.inputValue()} o’clock`));
});

test("two kinds of pot share a tray: each has its window, and the tray its litres", everySize, async ({ page }) => {
  const bed = await Bed.open(page, "bed.medium=sand_sharp");
  await bed.ranged();
  await page.getByText("A second kind of pot in the tray").click();
  await bed.field("second.there").selectOption("yes");
  await bed.field("second.pots").fill("4");
  const { detail } = await sameAsTerminal(bed, { bed: { medium: "sand_sharp" }, second: { there: "yes", pots: "4" } });
  const rows = bed.answer.getByRole("table", { name: "Both kinds of pot" }).locator("tbody tr");
  await expect(rows).toHaveCount(2);
  await expect(rows.nth(1)).toContainText(detail.kinds[1]!.pot);
  await expect(bed.answer).toContainText(detail.kinds_together);
  await expect(bed.answer).toContainText(detail.soaking);
});

test("thirst by leaves and sun, shallow roots in the bed, a known floor: as the terminal answers", async ({ page }) => {
  const bed = await Bed.open(page);
  await bed.ranged();
  await bed.field("plant.by").selectOption("leaves");
  await bed.field("plant.breadth").fill("110");
  await bed.field("plant.weather").selectOption("own");
  await bed.field("plant.sun").fill("24");
  await page.getByText("How they stand").click();
  await bed.field("plant.rooted").fill("200");
  await expect(bed.sentence("plant.rooted")).toContainText("deeper than that are in the bed");
  await bed.field("plant.rooted").fill("60");
  await bed.field("plant.roots_in_bed").selectOption("yes");
  await bed.field("wetted").selectOption("below");
  await page.getByText("How much of it, and its weight").click();
  await bed.field("bench.spacing").fill("");
  await bed.field("tray.area").fill("0,1");
  await expect(bed.sentence("tray.area")).toContainText("do not fit");
  await bed.field("tray.area").fill("0,4");
  await bed.field("tray.number").fill("3");
  await sameAsTerminal(bed, {
    bench: { spacing: "" },
    plant: { by: "leaves", breadth: "110 mm", weather: "own", sun: "24", rooted: "60 mm", roots_in_bed: "yes" },
    wetted: "below",
    tray: { area: "0.4 m2", number: "3" },
  });
});

test("a medium of one's own by an hour in a tube", everySize, async ({ page }) => {
  const bed = await Bed.open(page);
  await bed.ranged();
  await bed.field("bed.medium").click();
  await bed.sheet.choose("tested", /tested/);
  await expect(bed.lastGood).toBeVisible();
  for (const [name, typed] of [
    ["nearly_wet", "55"],
    ["damp", "125"],
    ["handful_wet", "370"],
    ["handful_dry", "300"],
    ["litre_dry", "1550"],
  ] as const) {
    await bed.field(`bed.tube.${name}`).fill(typed);
  }
  const tube = { nearly_wet: "55 mm", damp: "125 mm", handful_wet: "370 g", handful_dry: "300 g", litre_dry: "1550 g" };
  await sameAsTerminal(bed, { bed: { medium: "own_tube", tube } });
  await bed.field("bed.tube.nearly_wet").fill("150");
  await expect(bed.sentence("bed.tube.nearly_wet")).not.toBeEmpty();
  await expect(bed.lastGood).toBeVisible();
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
