// What a tired, hurried or playful hand may type: each time a sentence stands at the field, the
// last good answer stays and is said to be that, and nothing typed is lost.
import { everySize, expect, test } from "./fixture";
import { Mix, type Shown } from "./pages";

const rubbish = "r4t#~!ß漢字ﷺ".repeat(6).slice(0, 60);

/** The sentence stands at the field, and the answer is still that of the last good question. */
async function stillGood(mix: Mix, path: string, sentence: RegExp, good: Shown): Promise<void> {
  await expect(mix.sentence(path)).toHaveText(sentence);
  await expect(mix.sentence(path)).toBeVisible();
  await expect(mix.field(path)).toHaveAttribute("aria-invalid", "true");
  await expect(mix.field(path)).toHaveAttribute("aria-describedby", (await mix.sentence(path).getAttribute("id"))!);
  await expect(mix.lastGood).toHaveText(/This is the answer to your last good one\.$/);
  await expect(mix.lastGood).toBeVisible();
  expect(await mix.figures()).toEqual(good);
}

/** The question is put right again, and so is everything. */
async function rightAgain(mix: Mix, path: string, good: Shown): Promise<void> {
  await expect(mix.sentence(path)).toBeHidden();
  await expect(mix.field(path)).not.toHaveAttribute("aria-invalid", /.*/);
  await expect(mix.lastGood).toBeHidden();
  expect(await mix.figures()).toEqual(good);
}

const typed: { path: string; cases: [string, RegExp][]; good: string }[] = [
  {
    path: "parts.0.amount",
    good: "3",
    cases: [
      ["", /^Write a number\.$/],
      ["   ", /^Write a number\.$/],
      ["-1", /^Parts: .1 is too little\. Between 0 and 1000 would be right\.$/],
      ["1e400", /^1e400 is too large\. Write a smaller number\.$/],
      ["-1e400", /too (large|little)/],
      ["9999999999", /is too much\. Between 0 and 1000 would be right\.$/],
      ["1,250", /^1,250 can be read as 1250 or as 1\.25\. Write 1250 or 1\.25\.$/],
      ["1/0", /is divided by nought\. Write a fraction such as 1\/2\.$/],
      ["NaN", /^“NaN” is not a number\. Write one such as/],
      ["inf", /^“inf” is not a number\./],
      ["0x10", /is not a number\./],
      ["--3", /is not a number\./],
      ["3 buckets", /is not a number\./],
      ["<b>3</b>", /^“<b>3<\/b>” is not a number\./],
      ["🌱🌱🌱", /^“🌱🌱🌱” is not a number\./],
      [rubbish, /(is not a number|is too long for a number)\./],
      ["1".repeat(60), /(too long for a number|too (much|large))/],
    ],
  },
  {
    path: "pots",
    good: "20",
    cases: [
      ["", /^Write a number\.$/],
      ["0", /^Number of pots: 0 is too little\. Between 1 and/],
      ["-20", /^Number of pots: .20 is too little\./],
      ["1.5", /^Number of pots: 1\.5 is not a whole number\. Write 1 or 2\.$/],
      ["1000000", /is too much\./],
      ["twenty", /is not a number\./],
    ],
  },
];

for (const { path, cases, good: right } of typed) {
  test(`${path}: a sentence at the field, whatever is typed`, async ({ page }) => {
    const mix = await Mix.open(page);
    const good = await mix.figures();
    for (const [text, sentence] of cases) {
      await mix.field(path).fill(text);
      await stillGood(mix, path, sentence, good);
      await expect(mix.field(path)).toHaveValue(text);
      await mix.field(path).fill(right);
      await rightAgain(mix, path, good);
    }
  });
}

test("parts of nought: one is left out, and all of them are refused", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.amount(1).fill("0");
  const good = await mix.figures();
  expect(Object.keys(good)).not.toContain("coarse perlite to measure out");
  await expect(mix.lastGood).toBeHidden();
  await mix.amount(0).fill("0");
  await mix.ranged();
  const left = await mix.figures();
  await mix.amount(2).fill("0");
  await stillGood(mix, "parts.0.amount", /^All parts are 0\. Give at least one material a number above 0\.$/, left);
});

test("the same material twice, and eight times", async ({ page }) => {
  const mix = await Mix.open(page);
  const good = await mix.figures();
  const twice = /^There is composted bark in this mix already\. Add the two parts together in one row\.$/;
  await mix.chooseMaterial(1, "bark", /composted bark/);
  await stillGood(mix, "parts.1.material", twice, good);
  while (await mix.addMaterial.isVisible()) await mix.addMaterial.click();
  await expect(mix.parts).toHaveCount(8);
  for (let part = 2; part < 8; part += 1) await mix.chooseMaterial(part, "bark", /composted bark/);
  for (let part = 1; part < 8; part += 1) await stillGood(mix, `parts.${part}.material`, twice, good);
  await expect(mix.sentence("parts.0.material")).toBeHidden();
});

test("a ninth material, and a pot and a use that there are not, from a link", async ({ page }) => {
  const nine = Array.from({ length: 9 }, (_, part) => `parts.${part}.material=coir_pith&parts.${part}.amount=1`).join("&");
  const mix = await Mix.open(page, nine);
  await expect(mix.sentence("parts")).toHaveText("A mix may have up to 8 materials. Leave out the smallest.");
  await expect(mix.addMaterial).toHaveCount(0);
  await page.goto("about:blank");
  await mix.go("./#/mix?parts.0.material=moon%20dust&parts.0.amount=1&parts.0.bag=70%20L&pot.size=bucket&pots=1&purpose=roof");
  await expect(mix.sentence("parts.0.material")).toHaveText(/^There is no material called “moon dust”\./);
  await expect(mix.sentence("pot.size")).toHaveText(/^There is no pot called “bucket”\./);
  await expect(mix.sentence("purpose")).toHaveText(/^There is no use called “roof”\./);
  // There was no good question yet, and that is said too.
  await expect(mix.answer).toContainText("Put the question right, and the answer stands here.");
});

test("pots that cannot be", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.choosePot("my own", /my own, round/);
  const good = await mix.figures();
  const round: [string, string, string, RegExp][] = [
    ["pot.height", "88", "0", /^Height of the pot: 0.mm is too little\. Between 20 and 1000.mm would be right\.$/],
    ["pot.height", "88", "-88", /^Height of the pot: .88.mm is too little\./],
    ["pot.height", "88", "5000", /^Height of the pot: 5000.mm is too much\./],
    ["pot.rim", "100", "0", /^Breadth of the pot: 0.mm is too little\./],
    ["pot.rim", "100", "", /^Write a number\.$/],
    ["pot.base", "70", "5", /^Breadth of the pot: 5.mm is too little\./],
    ["pot.base", "70", "20", /^Rim and base are more than four times apart\. Measure both inside, straight across\.$/],
    ["pot.below_rim", "10", "88", /^The pot is only 88 mm tall: leave less space below the rim\.$/],
    ["pot.below_rim", "10", "-1", /^Space below the rim: .1.mm is too little\./],
  ];
  for (const [path, right, wrong, sentence] of round) {
    await mix.field(path).fill(wrong);
    await stillGood(mix, path, sentence, good);
    await mix.field(path).fill(right);
    await rightAgain(mix, path, good);
  }
  await mix.choosePot("volume", /my own, by volume/);
  const byVolume = await mix.figures();
  for (const [wrong, sentence] of [
    ["0", /^Volume of the pot: 0.L is too little\./],
    ["400", /^A pot of this volume and height would be [\d.]+ cm across\. Check the two\.$/],
    ["1e400", /too large/],
  ] as const) {
    await mix.field("pot.volume").fill(wrong);
    await stillGood(mix, "pot.volume", sentence, byVolume);
  }
  await mix.field("pot.volume").fill("0.5");
  await rightAgain(mix, "pot.volume", byVolume);
});

test("a unit switched under something that is no number leaves it as it is", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.choosePot("my own", /my own, round/);
  await mix.field("pot.rim").fill("about ten");
  await mix.unit("Across the rim, inside").selectOption({ label: "cm" });
  await expect(mix.field("pot.rim")).toHaveValue("about ten");
  await expect(mix.sentence("pot.rim")).toHaveText(/^“about ten” is not a number\./);
});

test("bags that cannot be are told where they stand, behind what is asked more seldom", async ({ page }) => {
  const mix = await Mix.open(page);
  const good = await mix.figures();
  await mix.more("Bags, prices, what is in hand");
  await mix.field("parts.0.bag").fill("0");
  await stillGood(mix, "parts.0.bag", /^Size of the bag: 0.L is too little\./, good);
});

test("1,250 is one number once the decimal mark is settled", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.amount(0).fill("1,250");
  await expect(mix.sentence("parts.0.amount")).toBeVisible();
  await mix.saved((question) => question["parts.0.amount"] === "1,250");
  await mix.place("Settings").click();
  await page.getByRole("group", { name: "Decimal mark" }).getByRole("radio", { name: /^comma/ }).check();
  await page.goto("./#/mix");
  await expect(mix.amount(0)).toHaveValue("1,250");
  await expect(mix.sentence("parts.0.amount")).toBeHidden();
  await expect(mix.limits).toHaveText(/\d to \d/);
});

test("nothing typed is lost when the page is loaded again half-way", everySize, async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.choosePot("my own", /my own, square/);
  await mix.ranged();
  const good = await mix.large.textContent();
  await expect.poll(() => page.url()).toContain("own_square");
  await mix.amount(0).fill("2 1/");
  await mix.amount(1).fill("🌱");
  await mix.field("pot.rim").fill("");
  await mix.field("pots").pressSequentially(" or so");
  // No waiting here: what was typed last has not been saved by itself yet.
  await mix.reload();
  await expect(mix.amount(0)).toHaveValue("2 1/");
  await expect(mix.amount(1)).toHaveValue("🌱");
  await expect(mix.field("pot.rim")).toHaveValue("");
  await expect(mix.field("pots")).toHaveValue(/20/);
  await expect(mix.field("pots")).toHaveValue(/ or so/);
  for (const path of ["parts.0.amount", "parts.1.amount", "pot.rim", "pots"]) {
    await expect(mix.sentence(path)).toHaveText(/\.$/);
  }
  // The last good answer is there again too, without its range.
  await expect(mix.lastGood).toBeVisible();
  await expect(mix.large).toHaveText(/^[\d.]+%$/);
  expect(Math.abs(parseFloat((await mix.large.textContent())!) - parseFloat(good!))).toBeLessThanOrEqual(1);
  await mix.amount(0).fill("2 1/2");
  await mix.amount(1).fill("1");
  await mix.field("pot.rim").fill("100");
  await mix.field("pots").fill("20");
  await mix.ranged();
  await expect(mix.lastGood).toBeHidden();
});

test("keys pressed at random break nothing", async ({ page }) => {
  const mix = await Mix.open(page);
  // A fixed course through the numbers, so that each run is the same one (Lehmer 1951, with the
  // multiplier 48271 of Park, Miller and Stockmeyer 1993).
  let seed = 20_260_301;
  const below = (limit: number) => (seed = (seed * 48_271) % 2_147_483_647) % limit;
  const pieces = ["1", "0", "-", ",", ".", "/", " ", "e", "½", "\u0000", "🌱", "٣", "１", "<", "&", "\"", "'", "%", "1/2", "NaN"];
  for (let round = 0; round < 60; round += 1) {
    const inputs = page.locator('form.question input[type="text"]:visible');
    const text = Array.from({ length: below(6) }, () => pieces[below(pieces.length)]).join("");
    await inputs.nth(below(await inputs.count())).fill(text);
    if (below(6) === 0 && (await mix.addMaterial.isVisible())) await mix.addMaterial.click();
    const out = page.getByRole("button", { name: /^Take out/ });
    if (below(6) === 0 && (await out.count()) > 1) await out.nth(below(await out.count())).click();
  }
  await expect(mix.heading).toHaveText("Mix");
  await expect(page.locator(".stopped")).toHaveCount(0);
  await page.goto("about:blank");
  await mix.go("./#/mix");
  await expect(mix.parts.first()).toBeVisible();
});
