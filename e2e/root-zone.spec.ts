// Root zone: where pots stand this month, what their roots feel, and what heat costs.
import { type Figure, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, Reckoned, settled, wholeFigures } from "./pages";

type Answer = {
  figures: Figure[];
  judgement: string;
  advice: string;
  cautions: { before: string; sentence: string }[];
  detail: {
    overtakes: string;
    heights: string;
    hold: string;
    july: string;
    not_in_it: string;
    settled_by: string;
    own: string;
    fitted: { what: string }[];
    readings: { what: string }[];
    heat: { what: string; said: string }[];
    further: { months: object[]; heights: object[] };
  };
};

class RootZone extends Reckoned {
  static override async open(page: Mix["page"], question = ""): Promise<RootZone> {
    const root = new RootZone(page);
    await root.go(question ? `./#/root-zone?${question}` : "./#/root-zone");
    return root;
  }

  /** Waits until all draws are made and all else is looked for. */
  override async ranged(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden({ timeout: 30_000 });
    await expect(this.answer.getByRole("heading", { name: "Through the year" })).toBeVisible({ timeout: 30_000 });
    await settled(this.answer);
  }
}

async function sameAsTerminal(root: RootZone, question: object): Promise<Answer> {
  const answer = terminalOf("root_zone", question) as unknown as Answer;
  await answersAs(root, answer);
  const { detail } = answer;
  for (const sentence of [detail.overtakes, detail.heights, detail.hold, detail.july, detail.not_in_it, detail.settled_by]) {
    await expect(root.answer).toContainText(sentence);
  }
  return answer;
}

test("opens from the start with the April case, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Root zone/ }).click();
  const root = new RootZone(page);
  await expect(root.heading).toHaveText("Root zone");
  const { detail } = await sameAsTerminal(root, {});
  const rows = (name: string) => root.answer.getByRole("table", { name }).locator("tbody tr");
  await expect(rows("Roots on the mean, and growth against the floor")).toHaveCount(detail.further.months.length);
  await expect(rows("Raised so high")).toHaveCount(detail.further.heights.length);
});

test("the day is drawn with its limit, told in a sentence, and stands in a table behind", everySize, async ({ page }) => {
  const root = await RootZone.open(page);
  await root.ranged();
  const drawing = root.answer.getByRole("img", { name: /Roots through the day/ });
  await expect(drawing).toBeVisible();
  for (const words of ["heated", "raised", "on floor", "air at bench", "too cold"]) await expect(drawing).toContainText(words);
  await root.answer.getByText("The drawing as a table").click();
  await expect(root.answer.getByRole("table", { name: "Roots, °C" }).locator("tbody tr")).toHaveCount(12);
});

test("a bench with a price and no cover, on concrete, from the weather outside: as the terminal answers", async ({ page }) => {
  const root = await RootZone.open(page);
  await root.field("stand").selectOption("bench");
  await root.field("air.by").selectOption("outside");
  await root.field("air.low").fill("4.6");
  await root.field("air.high").fill("14.6");
  for (const about of ["The heated bench", "The house and its air", "What heat costs"]) await root.more(about);
  await root.field("cover.kind").selectOption("none");
  await root.field("heated.probe").selectOption("pot_middle");
  await root.field("air.width").fill("6");
  await root.field("money.tariff").fill("0.3");
  await root.field("money.cover_price").fill("45");
  const { detail, cautions } = await sameAsTerminal(root, {
    stand: "bench",
    air: { by: "outside", low: "4.6 degC", high: "14.6 degC", width: "6 m" },
    cover: { kind: "none" },
    heated: { probe: "pot_middle" },
    money: { tariff: "0.3", cover_price: "45" },
  });
  expect(cautions.some(({ sentence }) => sentence.includes("probe in the middle"))).toBe(true);
  for (const { what, said } of detail.heat) await expect(root.answer).toContainText(`${what}: ${said}.`);
});

/** Four days on slats, with the mix and the water of a tray read at dawn and in the afternoon. */
const READ = {
  days: [
    { low: "4 degC", high: "21 degC" },
    { low: "3 degC", high: "23 degC" },
    { low: "7 degC", high: "15 degC" },
    { low: "5 degC", high: "" },
  ],
  readings: [1, 2, 3, 4].flatMap((day) =>
    [
      ["root", "6 h", 6.5],
      ["root", "15 h", 18],
      ["water", "6 h", 7],
      ["water", "15 h", 14],
    ].map(([what, hour, degrees]) => ({ what, day: `${day}`, hour, temperature: `${Number(degrees) + (day % 2)} degC` })),
  ),
};

test("readings of one's own are fitted, reading by reading, as the terminal does", everySize, async ({ page }) => {
  const address = new URLSearchParams();
  for (const [list, rows] of Object.entries(READ)) {
    rows.forEach((row, index) => {
      for (const [name, text] of Object.entries(row)) address.set(`${list}.${index}.${name}`, `${text}`);
    });
  }
  const root = await RootZone.open(page, address.toString().replaceAll("+", "%20"));
  const { detail } = await sameAsTerminal(root, READ);
  expect(detail.own).toMatch(/^Fitted to your readings raised/);
  await expect(root.answer).toContainText(detail.own);
  const fitted = root.answer.getByRole("table", { name: "What was fitted" }).locator("tbody tr");
  await expect(fitted).toHaveCount(detail.fitted.length);
  for (const { what } of detail.fitted) await expect(root.answer.getByRole("rowheader", { name: what })).toBeVisible();
  await root.answer.getByText("Reading by reading").click();
  await expect(root.answer.getByRole("rowheader", { name: "water, day 4 at 15:00" })).toBeVisible();
});

test("readings are added row by row; too few are told so, and a slip gets a sentence at its field", async ({ page }) => {
  const root = await RootZone.open(page);
  await root.ranged();
  await root.more("Your own readings");
  await page.getByRole("button", { name: "Add a day" }).click();
  await page.getByRole("button", { name: "Add a reading" }).click();
  for (const [path, text] of [
    ["days.0.low", "4"],
    ["days.0.high", "20"],
    ["readings.0.day", "1"],
    ["readings.0.hour", "25"],
    ["readings.0.temperature", "8"],
  ] as const) {
    await root.field(path).fill(text);
  }
  await expect(root.sentence("readings.0.hour")).toContainText("too much");
  await root.field("readings.0.hour").fill("6");
  await root.ranged();
  await expect(root.answer).toContainText("Not fitted to your readings raised. These are too few readings");
  await page.getByRole("button", { name: "Take out reading 1" }).click();
  await root.ranged();
  await expect(root.answer).not.toContainText("Not fitted");
});

test("silly numbers get a sentence each, and the last good answer stays", async ({ page }) => {
  const root = await RootZone.open(page);
  const good = await root.figures();
  for (const about of ["The heated bench", "What heat costs", "Where"]) await root.more(about);
  for (const [path, typed, right] of [
    ["air.low", "25", "4"],
    ["raised.height", "0", "300"],
    ["raised.height", "5000", "300"],
    ["place.latitude", "95", ""],
    ["heated.power", "nought", "100"],
    ["bench.spacing", "20", "110"],
  ] as const) {
    await root.field(path).fill(typed);
    await expect(root.lastGood, `${path} ${typed}`).toBeVisible();
    await expect(root.sentence(path)).not.toBeEmpty();
    expect(await wholeFigures(root.answer)).toEqual(good);
    await root.field(path).fill(right);
    await expect(root.lastGood).toBeHidden();
    await root.ranged();
  }
  await root.field("money.tariff").fill("0");
  await expect(root.lastGood).toBeHidden();
});

test("works without a signal, keeps what was typed over a reload, and opens elsewhere by its link", async ({ page, browser, baseURL, guard }) => {
  const root = new RootZone(page);
  await root.storedHere();
  await root.go("./#/root-zone");
  await root.ranged();
  await page.context().setOffline(true);
  await root.field("air.low").fill("6");
  const answered = await root.figures();
  await expect.poll(async () => ((await root.kept("question.root_zone")) as any)?.question["air.low"]).toMatch(/^6/);
  await root.reload();
  await expect(root.field("air.low")).toHaveValue("6");
  expect(await root.figures()).toEqual(answered);
  await page.context().setOffline(false);
  await expect.poll(() => page.url()).toContain("air.low=6");
  const elsewhere = await browser.newContext({ baseURL });
  await guard.watch(elsewhere);
  const other = new RootZone(await elsewhere.newPage());
  await other.go(page.url());
  expect(await other.figures()).toEqual(answered);
  await elsewhere.close();
});

test("on paper it is one side of A4, with the cautions first", async ({ page }) => {
  const root = await RootZone.open(page);
  await root.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
  await page.emulateMedia({ media: "print" });
  const cautions = (await root.answer.locator(".cautions").boundingBox())!;
  const bench = (await root.answer.getByRole("heading", { name: "The heated bench" }).boundingBox())!;
  expect(cautions.height).toBeGreaterThan(0);
  expect(cautions.y + cautions.height).toBeLessThanOrEqual(bench.y);
});
