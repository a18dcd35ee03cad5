// Mix from end to end: what is asked, what is answered, and that it is what the terminal answers.
import type { Locator, Page } from "@playwright/test";
import { asShown, barkPerliteCoir, terminal, type Question } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix } from "./pages";

const sameAsTerminal = (mix: Mix, question: Question): Promise<void> => answersAs(mix, terminal(question));

const tenCentimetre = { size: "round_10_cm" };

test.describe("3 bark, 1 perlite, 1 coir", () => {
  test("in a 10 cm pot and in 8.5 L, as the terminal answers it", everySize, async ({ page }) => {
    const mix = await Mix.open(page);
    await expect(mix.parts).toHaveCount(3);
    await sameAsTerminal(mix, barkPerliteCoir(tenCentimetre));
    const shallow = await mix.large.textContent();

    await mix.choosePot("8.5", /8\.5 L/);
    await expect(mix.field("pot.size")).toContainText("26 cm, 8.5 L");
    await sameAsTerminal(mix, barkPerliteCoir({ size: "round_8_5_l" }));
    // A deeper pot drains further.
    expect(parseFloat((await mix.large.textContent())!)).toBeGreaterThan(parseFloat(shallow!));
  });

  test("entered from the start page, by the sheets alone", everySize, async ({ page }) => {
    await page.goto("./");
    await page.getByRole("link", { name: /^Mix/ }).click();
    const mix = new Mix(page);
    await expect(mix.heading).toHaveText("Mix");
    // Away from it and back again, so that each choice is one.
    await mix.chooseMaterial(0, "sharp", /sharp sand/);
    await mix.chooseMaterial(0, "BARK comp", /composted bark/);
    await mix.chooseMaterial(1, "grit", /^grit/);
    await mix.chooseMaterial(1, "coarse perl", /coarse perlite/);
    await mix.choosePot("10 cm r", /10 cm round/);
    await sameAsTerminal(mix, barkPerliteCoir(tenCentimetre));
  });
});

test("each use has its own verdict", async ({ page }) => {
  const mix = await Mix.open(page);
  for (const purpose of ["seed", "young_plants", "growing_on", "cuttings"]) {
    await mix.field("purpose").selectOption(purpose);
    await expect(mix.answer.locator(".what")).toHaveText("air in this pot, once drained");
    await sameAsTerminal(mix, barkPerliteCoir(tenCentimetre, { purpose }));
  }
});

test.describe("a pot of one's own", () => {
  test("round, and square", async ({ page }) => {
    const mix = await Mix.open(page);
    const sizes = { rim: "115 mm", base: "80 mm", height: "130 mm", below_rim: "12 mm" };
    for (const [size, name] of [["own_round", /my own, round/], ["own_square", /my own, square/]] as const) {
      await mix.choosePot("my own", name);
      for (const [field, value] of Object.entries(sizes)) {
        await mix.field(`pot.${field}`).fill(value.replace(" mm", ""));
      }
      await sameAsTerminal(mix, barkPerliteCoir({ size, ...sizes }));
    }
  });

  test("by its volume", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.choosePot("volume", /my own, by volume/);
    await mix.field("pot.volume").fill("8.5");
    await mix.field("pot.height").fill("210");
    await mix.field("pot.below_rim").fill("25");
    await expect(mix.field("pot.rim")).toHaveCount(0);
    await sameAsTerminal(
      mix,
      barkPerliteCoir({ size: "own_volume", volume: "8.5 L", height: "210 mm", below_rim: "25 mm" }),
    );
  });

  test("keeps its meaning when its units are switched", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.choosePot("my own", /my own, round/);
    const sizes = { rim: "127 mm", base: "76.2 mm", height: "101.6 mm", below_rim: "12.7 mm" };
    const labels: Record<string, string> = {
      rim: "Across the rim, inside",
      base: "Across the base, inside",
      height: "Height, inside",
      below_rim: "Space below the rim, once watered",
    };
    for (const [field, value] of Object.entries(sizes)) {
      await mix.field(`pot.${field}`).fill(value.replace(" mm", ""));
    }
    const before = await mix.figures();
    for (const field of Object.keys(sizes)) await mix.unit(labels[field]!).selectOption({ label: "in" });
    // An inch is 25.4 mm exactly, so nothing is lost here on the way.
    await expect(mix.field("pot.rim")).toHaveValue("5");
    await expect(mix.field("pot.base")).toHaveValue("3");
    await expect(mix.field("pot.height")).toHaveValue("4");
    await expect(mix.field("pot.below_rim")).toHaveValue("0.5");
    expect(await mix.figures()).toEqual(before);
    await sameAsTerminal(mix, barkPerliteCoir({ size: "own_round", ...sizes }));
    for (const field of Object.keys(sizes)) await mix.unit(labels[field]!).selectOption({ label: "cm" });
    await expect(mix.field("pot.rim")).toHaveValue("12.7");
    expect(await mix.figures()).toEqual(before);
  });
});

test.describe("what you measured yourself", () => {
  test("a drain test at two heights overrules the handbook, as the terminal answers it", everySize, async ({ page }) => {
    const mix = await Mix.open(page);
    const before = await mix.figures();
    await mix.more("What you measured yourself");
    await mix.field("parts.0.own.figures").selectOption("drain_test");
    const short = { volume: "1", height: "100", filled: "420", soaked: "940", drained: "640" };
    const tall = { volume: "2", height: "200", filled: "840", soaked: "1880", drained: "1180" };
    await mix.field("parts.0.own.moisture").fill("45");
    await mix.type(Object.fromEntries(Object.entries(short).map(([name, value]) => [`parts.0.own.short.${name}`, value])));
    await mix.type(Object.fromEntries(Object.entries(tall).map(([name, value]) => [`parts.0.own.tall.${name}`, value])));
    const units = { volume: " L", height: " mm", filled: " g", soaked: " g", drained: " g" } as const;
    const vessel = (sizes: typeof short) =>
      Object.fromEntries(Object.entries(sizes).map(([name, value]) => [name, value + units[name as keyof typeof units]]));
    const question = barkPerliteCoir(tenCentimetre);
    question.parts[0]!.own = { figures: "drain_test", moisture: "45 %", short: vessel(short), tall: vessel(tall) };
    await sameAsTerminal(mix, question);
    expect(await mix.figures()).not.toEqual(before);

    // Drained heavier than soaked is told at its field, and the last good answer stays.
    await mix.field("parts.0.own.short.drained").fill("2000");
    await expect(mix.sentence("parts.0.own.short.drained")).toHaveText(/more drained than soaked|more water|L of water/);
    await expect(mix.lastGood).toBeVisible();
  });

  test("figures of one's own and a bucket test", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.more("What you measured yourself");
    await mix.field("parts.2.own.figures").selectOption("own_figures");
    await mix.type({
      "parts.2.own.density": "80",
      "parts.2.own.pore_space": "88",
      "parts.2.own.water_at_10_cm": "61",
      "bucket.loose": "10",
      "bucket.mixed": "9.2",
    });
    const question = barkPerliteCoir(tenCentimetre, { bucket: { loose: "10 L", mixed: "9.2 L" } });
    question.parts[2]!.own = { figures: "own_figures", density: "80 g/L", pore_space: "88 %", water_at_10_cm: "61 %" };
    await sameAsTerminal(mix, question);
    expect((await mix.figures())["volume lost on mixing"]!.best).toBe("8%");
  });
});

test("300 pots from 70 L bags, with prices and what is in hand", everySize, async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.field("pots").fill("300");
  await mix.more("Bags, prices, what is in hand");
  await mix.type({
    "parts.0.price": "9.80",
    "parts.1.price": "14.50",
    "parts.2.price": "11",
    "parts.1.in_hand": "60",
  });
  const question = barkPerliteCoir(tenCentimetre, { pots: "300" });
  for (const [index, price] of ["9.80", "14.50", "11"].entries()) question.parts[index]!.price = price;
  question.parts[1]!.in_hand = "60 L";
  await sameAsTerminal(mix, question);
  const shopping = terminal(question).detail.shopping;
  const rows = mix.answer.locator("table.shopping tbody tr");
  await expect(rows.nth(0)).toContainText(`${shopping[0]!.bags} bags of 70 L`);
  await expect(rows.nth(0)).toContainText(`${shopping[0]!.cost!.toFixed(2)} to pay`);
  await expect(rows.nth(1)).toContainText("none: enough in hand");
});

test("on a coarse bed, at a spacing, with what a plant drinks, lime and the water", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.more("How they stand");
  await mix.type({
    "stands.tray": "25",
    "stands.bed": "40",
    "stands.drinks": "80",
    "bench.spacing": "110",
    "bench.limit": "25",
  });
  await mix.field("bench.set_out").selectOption("staggered");
  await mix.more("Feed, lime and water");
  await mix.field("chemistry.feed").selectOption("usual_charge");
  await mix.type({ "chemistry.lime": "2", "chemistry.alkalinity": "280", "chemistry.conductivity": "0.6" });
  const question = barkPerliteCoir(tenCentimetre, {
    stands: { tray: "25 mm", bed: "40 mm", drinks: "80 mL" },
    bench: { spacing: "110 mm", limit: "25 kg/m2", set_out: "staggered" },
    chemistry: { feed: "usual_charge", lime: "2 g/L", alkalinity: "280 mg/L", conductivity: "0.6 mS/cm" },
  });
  await sameAsTerminal(mix, question);
  const minds = mix.answer.locator(".minds li");
  await expect(minds.first()).toBeVisible();
  expect(await minds.allTextContents()).toEqual(terminal(question).detail.warnings);
  await expect(mix.answer.locator(".cautions")).toContainText("Before you set the pots out");
  await expect(mix.answer.locator("svg .bed")).toHaveCount(1);
  // What was opened stays open while the form is drawn anew.
  await mix.addMaterial.click();
  await expect(mix.field("stands.bed")).toBeVisible();
  await expect(mix.field("chemistry.lime")).toBeVisible();
});

test.describe("the parts", () => {
  test("can be added and taken out", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.addMaterial.click();
    await expect(mix.parts).toHaveCount(4);
    await mix.chooseMaterial(3, "pumice", /pumice/);
    await mix.amount(3).fill("1/2");
    const three = barkPerliteCoir(tenCentimetre);
    await sameAsTerminal(mix, {
      ...three,
      parts: [...three.parts, { material: "pumice", amount: "0.5", bag: "70 L" }],
    });
    await page.getByRole("button", { name: "Take out coarse perlite" }).click();
    await expect(mix.parts).toHaveCount(3);
    await sameAsTerminal(mix, {
      ...three,
      parts: [three.parts[0]!, three.parts[2]!, { material: "pumice", amount: "0.5", bag: "70 L" }],
    });
    await page.getByRole("button", { name: "Take out pumice" }).click();
    await page.getByRole("button", { name: "Take out coir pith" }).click();
    await expect(mix.parts).toHaveCount(1);
    // The last one cannot be taken out.
    await expect(page.getByRole("button", { name: /^Take out/ })).toHaveCount(0);
    await sameAsTerminal(mix, { ...three, parts: [three.parts[0]!] });
  });

  test("are eight at the most", async ({ page }) => {
    const mix = await Mix.open(page);
    for (let parts = 4; parts <= 8; parts += 1) {
      await mix.addMaterial.click();
      await expect(mix.parts).toHaveCount(parts);
    }
    await expect(mix.addMaterial).toBeHidden();
    await mix.ranged();
    await expect(mix.lastGood).toBeHidden();
  });

  test("are found in the sheet by any part of their name, and a word that none has is said so", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.material(0).click();
    await expect(mix.sheet.search).toBeFocused();
    await expect(mix.sheet.item("composted bark")).toHaveAttribute("aria-pressed", "true");
    await mix.sheet.search.fill("perl");
    await expect(mix.sheet.item(/./)).toHaveCount(3);
    await mix.sheet.search.fill("moon dust");
    await expect(mix.sheet.item(/./)).toHaveCount(0);
    await expect(mix.sheet.root).toContainText("Nothing has that in its name.");
    await mix.sheet.root.getByRole("button", { name: "Close" }).click();
    await expect(mix.sheet.root).toHaveCount(0);
    await expect(mix.material(0)).toBeFocused();
    await expect(mix.material(0)).toContainText("composted bark");
  });
});

test("steppers go to the next whole step, and not below nought", async ({ page }) => {
  const mix = await Mix.open(page);
  const less = page.getByRole("button", { name: "Less: Parts of composted bark" });
  const more = page.getByRole("button", { name: "More: Parts of composted bark" });
  await mix.amount(0).fill("2.3");
  await more.click();
  await expect(mix.amount(0)).toHaveValue("3");
  await mix.amount(0).fill("2.3");
  await less.click();
  await expect(mix.amount(0)).toHaveValue("2");
  await less.click();
  await less.click();
  await less.click();
  await expect(mix.amount(0)).toHaveValue("0");
  await more.click();
  await more.click();
  await more.click();
  await sameAsTerminal(mix, barkPerliteCoir(tenCentimetre));
});

test("numbers as people write them mean the same", async ({ page }) => {
  const mix = await Mix.open(page);
  const written = barkPerliteCoir(tenCentimetre);
  written.parts[0]!.amount = "2.5";
  const wanted = terminal(written).figures.map(asShown);
  for (const typed of ["2.5", "2,5", "2 1/2", " 2.5 ", "5/2", "+2.5"]) {
    await mix.amount(0).fill("3");
    await mix.amount(0).fill(typed);
    await expect(mix.sentence("parts.0.amount")).toBeHidden();
    await expect(mix.amount(0)).toHaveValue(typed);
    expect(Object.values(await mix.figures()), typed).toEqual(wanted);
  }
});

test("what is behind the answer stays open while the question changes", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.ranged();
  const all = mix.answer.locator("details", { hasText: "All figures" });
  await all.locator("summary").click();
  await mix.answer.getByText("Working and sources").click();
  await expect(mix.answer.locator("details[open]")).toHaveCount(2);
  const [first] = terminal(barkPerliteCoir(tenCentimetre)).working;
  await expect(mix.answer.locator(".working li").first()).toContainText(first!.result);
  await mix.amount(0).fill("4");
  await mix.ranged();
  await expect(mix.answer.locator("details[open]")).toHaveCount(2);
});

test.describe("a link", () => {
  const copied = (page: Page): Promise<string> => page.evaluate(() => navigator.clipboard.readText());

  test("opened elsewhere asks the same and answers the same", async ({ page, context, browser, baseURL, guard }) => {
    await context.grantPermissions(["clipboard-read", "clipboard-write"]);
    const mix = await Mix.open(page);
    await mix.choosePot("my own", /my own, square/);
    await mix.field("pot.rim").fill("4 1/2");
    await mix.unit("Across the rim, inside").selectOption({ label: "cm" });
    await mix.field("pot.rim").fill("12,5");
    await mix.amount(1).fill("1/2");
    await mix.field("pots").fill("17");
    await mix.field("purpose").selectOption("cuttings");
    const answered = await mix.figures();
    await mix.answer.getByRole("button", { name: "Copy the link" }).click();
    await expect(mix.answer).toContainText("Copied.");
    const link = await copied(page);
    expect(link).toBe(page.url());
    expect(link.startsWith(`${baseURL}#/mix?`)).toBe(true);

    const elsewhere = await browser.newContext({ baseURL });
    await guard.watch(elsewhere);
    const other = new Mix(await elsewhere.newPage());
    await other.go(link);
    expect(await other.figures()).toEqual(answered);
    await expect(other.field("pot.rim")).toHaveValue("12.5");
    await expect(other.unit("Across the rim, inside")).toHaveValue("cm");
    await expect(other.field("pots")).toHaveValue("17");
    await expect(other.field("purpose")).toHaveValue("cuttings");
    await expect(other.page.getByRole("button", { name: "Bring mine back" })).toHaveCount(0);
    expect(other.page.url()).toBe(link);
    await elsewhere.close();
  });

  test("takes the place of the last question, which can be brought back", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.amount(0).fill("5");
    await mix.saved((question) => question["parts.0.amount"] === "5");
    const own = await mix.figures();

    const link = page.url().split("?")[1]!.replace("parts.0.amount=5", "parts.0.amount=2");
    await page.goto("about:blank");
    await mix.go(`./#/mix?${link}`);
    await expect(mix.amount(0)).toHaveValue("2");
    await mix.ranged();
    expect(await mix.figures()).not.toEqual(own);
    await page.getByRole("button", { name: "Bring mine back" }).click();
    await expect(mix.amount(0)).toHaveValue("5");
    expect(await mix.figures()).toEqual(own);
    await expect(page.getByRole("button", { name: "Bring mine back" })).toHaveCount(0);
    await mix.saved((question) => question["parts.0.amount"] === "5");
    await mix.reload();
    await expect(mix.amount(0)).toHaveValue("5");
  });

  test("followed while the page is open does so too", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.amount(0).fill("5");
    await mix.ranged();
    await expect.poll(() => page.url()).toContain("parts.0.amount=5");
    const link = new URL(page.url()).hash.replace("parts.0.amount=5", "parts.0.amount=2");
    await page.evaluate((hash) => (location.hash = hash), link);
    await expect(mix.amount(0)).toHaveValue("2");
    await page.getByRole("button", { name: "Bring mine back" }).click();
    await expect(mix.amount(0)).toHaveValue("5");
  });

  test("that is none is said so, and the last question stays", async ({ page }) => {
    const mix = await Mix.open(page);
    await mix.amount(0).fill("5");
    await mix.saved((question) => question["parts.0.amount"] === "5");
    for (const none of ["%", "nothing", "a=b", "x".repeat(9000), "pots.0.1=2"]) {
      await page.goto("about:blank");
      await mix.go(`./#/mix?${none}`);
      await expect(mix.notice("This link's question cannot be read.")).toBeVisible();
      await expect(mix.amount(0)).toHaveValue("5");
    }
  });
});

/** Goes on by the Tab key until it is there. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  for (let steps = 0; steps < 60; steps += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("The Tab key does not lead there.");
}

test("by the keyboard alone", async ({ page }) => {
  await page.goto("./");
  const mix = new Mix(page);
  await mix.opened();
  await page.keyboard.press("Tab");
  await expect(page.getByRole("link", { name: "To the page" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.locator("main")).toBeFocused();
  await tabTo(page, page.getByRole("link", { name: /^Mix/ }));
  await page.keyboard.press("Enter");
  await expect(mix.heading).toHaveText("Mix");
  await expect(page.locator("main")).toBeFocused();

  await tabTo(page, mix.material(2));
  await page.keyboard.press("Enter");
  await expect(mix.sheet.search).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(mix.sheet.root).toHaveCount(0);
  await expect(mix.material(2)).toBeFocused();
  await page.keyboard.press("Enter");
  await page.keyboard.type("white pe");
  await tabTo(page, mix.sheet.item(/white peat/));
  await page.keyboard.press("Enter");
  await expect(mix.sheet.root).toHaveCount(0);
  await expect(mix.material(2)).toContainText("white peat");
  await tabTo(page, mix.amount(2));
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("2");
  await tabTo(page, mix.field("purpose"));
  await page.keyboard.type("cut");
  await tabTo(page, mix.field("pots"));
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("12");
  // Enter in a field sends nothing anywhere.
  await page.keyboard.press("Enter");
  await expect(mix.field("pots")).toBeFocused();

  const asked = barkPerliteCoir(tenCentimetre, { pots: "12", purpose: "cuttings" });
  asked.parts[2] = { material: "white_peat", amount: "2", bag: "70 L" };
  await sameAsTerminal(mix, asked);
});

test("the answer stays in sight in one line while one types", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.ranged();
  const strip = page.locator(".strip");
  await expect(strip).toBeHidden();
  await mix.field("pots").scrollIntoViewIfNeeded();
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  await expect(strip).toBeVisible();
  await expect(strip).toContainText((await mix.large.textContent())!);
  await mix.field("pots").fill("none");
  await expect(strip).toContainText("last good");
  await strip.click();
  await expect(mix.large).toBeInViewport();
  await expect(strip).toBeHidden();
});

test("on paper it is one side of A4, with the cautions before what is measured out", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  const sheets = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
  expect(sheets).toBe(1);
  // A4 in points, 210 by 297 mm, to the nearest point.
  const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)];
  expect(boxes.length).toBeGreaterThan(0);
  for (const [, width, height] of boxes) expect([width, height].map((side) => Math.round(Number(side)))).toEqual([595, 842]);

  await page.emulateMedia({ media: "print" });
  for (const unprinted of [".places", ".strip", ".takeaway", ".step >> nth=0"]) {
    await expect(page.locator(unprinted)).toBeHidden();
  }
  const cautions = (await mix.answer.locator(".cautions").boundingBox())!;
  const table = (await mix.answer.locator("table.shopping").boundingBox())!;
  expect(cautions.height).toBeGreaterThan(0);
  expect(cautions.y + cautions.height).toBeLessThanOrEqual(table.y);
  await expect(mix.answer.locator(".headline .limits")).toBeVisible();
});

test("Print prints", async ({ page }) => {
  await page.addInitScript(() => {
    globalThis.print = () => (document.documentElement.dataset.printed = "yes");
  });
  const mix = await Mix.open(page);
  await mix.answer.getByRole("button", { name: "Print" }).click();
  await expect(page.locator("html")).toHaveAttribute("data-printed", "yes");
});
