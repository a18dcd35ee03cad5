// Rinse from end to end: what is asked, what is answered, and that it is what the terminal answers.
import { asShown, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { saysAs } from "./pages";
import { Rinse } from "./rinse-pages";

type Question = Record<string, string>;

/** The page shows every figure that the terminal gives, rinse by rinse too, its verdict's sentence,
 * its advice and its cautions. */
async function sameAsTerminal(rinse: Rinse, question: Question): Promise<void> {
  const answer = terminalOf("rinse", question);
  const starting = (with_: string) => answer.figures.filter((figure) => figure.name.startsWith(with_)).map(asShown);
  const whole = answer.figures.filter((figure) => !/_rinse_\d+$/.test(figure.name));
  expect(await rinse.figures()).toEqual(Object.fromEntries(whole.map((figure) => [figure.label, asShown(figure)])));
  expect(await rinse.byRinse("Extract")).toEqual(starting("extract_after_rinse_"));
  expect(await rinse.byRinse("Runs off at")).toEqual(starting("run_off_of_rinse_"));
  await saysAs(rinse, answer);
}

test("coral to 0.5 mS/cm with water of 0.2 mS/cm, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Rinse/ }).click();
  const rinse = new Rinse(page);
  await expect(rinse.heading).toHaveText("Rinse");
  await sameAsTerminal(rinse, {});
  await expect(rinse.judgement).toContainText("after 2 rinses");
});

test("the drawing has a title, a sentence, a target and a floor, and a table behind it", everySize, async ({ page }) => {
  const rinse = await Rinse.open(page);
  await rinse.ranged();
  const drawing = rinse.answer.getByRole("img", { name: /Salt by rinse/ });
  await expect(drawing).toBeVisible();
  await expect(drawing).toContainText("to come down to");
  await expect(drawing).toContainText("no lower");
  await rinse.answer.getByText("The drawing as a table").click();
  await expect(rinse.answer.getByRole("columnheader", { name: "Extract" })).toBeVisible();
});

test("coir for seed asks for calcium nitrate and cautions before it", async ({ page }) => {
  const rinse = await Rinse.open(page);
  await rinse.field("material").selectOption("coir_pith");
  await rinse.field("purpose").selectOption("seed");
  await expect(rinse.field("target")).toHaveCount(0);
  await sameAsTerminal(rinse, { material: "coir_pith", purpose: "seed" });
  await expect(rinse.advice).toContainText("calcium nitrate");
  await expect(rinse.answer.locator(".cautions")).toContainText("Before you dissolve calcium nitrate");
});

test("what is behind other choices is asked for only then", async ({ page }) => {
  const rinse = await Rinse.open(page);
  await expect(rinse.field("held")).toHaveCount(0);
  await rinse.field("material").selectOption("own");
  await rinse.field("held").fill("25");
  await rinse.field("density").fill("900");
  await rinse.field("way").selectOption("trickle");
  const own = { material: "own", held: "25 %", density: "900 g/L", way: "trickle" };
  await sameAsTerminal(rinse, own);
  await rinse.more();
  await expect(rinse.field("temperature")).toHaveCount(0);
  await rinse.field("meter").selectOption("does_not");
  await rinse.field("temperature").fill("8");
  await rinse.field("wetness").selectOption("dry");
  await sameAsTerminal(rinse, { ...own, meter: "does_not", temperature: "8 degC", wetness: "dry" });
});

test("a target below what the water allows is refused with what can be reached", async ({ page }) => {
  const rinse = await Rinse.open(page);
  const good = await rinse.figures();
  await rinse.more();
  await rinse.field("extract_water").selectOption("same");
  await rinse.ranged();
  const before = await rinse.figures();
  await rinse.field("target").fill("0.15");
  await expect(rinse.sentence("target")).toHaveText(/^With this water it cannot come down to 0\.15 mS\/cm\. What can be reached is /);
  await expect(rinse.field("target")).toHaveAttribute("aria-invalid", "true");
  await expect(rinse.lastGood).toBeVisible();
  expect(await rinse.figures()).toEqual(before);
  await rinse.field("target").fill("0.5");
  await rinse.field("extract_water").selectOption("pure");
  await expect(rinse.lastGood).toBeHidden();
  expect(await rinse.figures()).toEqual(good);
});

test("keeps its meaning when a unit is switched", async ({ page }) => {
  const rinse = await Rinse.open(page);
  const before = await rinse.figures();
  await rinse.unit("It reads").selectOption({ label: "µS/cm" });
  await expect(rinse.field("conductivity")).toHaveValue("1500");
  expect(await rinse.figures()).toEqual(before);
});

test("a link opened elsewhere asks the same and answers the same", async ({ page, browser, baseURL, guard }) => {
  const rinse = await Rinse.open(page);
  await rinse.field("material").selectOption("expanded_clay");
  await rinse.field("conductivity").fill("0,9");
  await rinse.field("purpose").selectOption("growing_on");
  const answered = await rinse.figures();
  await expect.poll(() => page.url()).toContain("material=expanded_clay");
  const elsewhere = await browser.newContext({ baseURL });
  await guard.watch(elsewhere);
  const other = new Rinse(await elsewhere.newPage());
  await other.go(page.url());
  expect(await other.figures()).toEqual(answered);
  await expect(other.field("material")).toHaveValue("expanded_clay");
  await elsewhere.close();
});
