// The day book: two numbers a day with wet hands, whatever else was done, all of it found again,
// drawn and printed; and never lost.
import type { Page } from "@playwright/test";
import { DayBook, dayAfter, idOf, night, nursery } from "./day-book-pages";
import { everySize, expect, test } from "./fixture";

const TODAY = "2026-05-20";
const daysAgo = (days: number) => dayAfter(TODAY, -days);

/** The page's clock stands at this day and time. */
async function at(page: Page, day = TODAY, time = "07:30"): Promise<void> {
  await page.clock.setFixedTime(`${day}T${time}:00`);
}

test("a nursery without a house is told what to do first", everySize, async ({ page }) => {
  const book = await DayBook.open(page);
  await expect(page.getByRole("heading", { name: "Add a house first" })).toBeVisible();
  await expect(page.getByRole("link", { name: "Add a house" })).toHaveAttribute("href", "#/thing?new=house");
  await expect(book.field("low")).toBeHidden();
  // What needs no house can be entered at once.
  await book.act("Note").click();
  await book.actField("notes").fill("Ordered labels");
  await book.saveAct();
  await expect(book.entry("Note: Ordered labels")).toHaveCount(1);
});

test("ten nights are entered, outlive a reload, and are there without a signal", everySize, async ({ page, context }) => {
  test.slow();
  await at(page, daysAgo(9));
  const book = await DayBook.open(page, nursery);
  for (let ago = 9; ago >= 0; ago -= 1) {
    await at(page, daysAgo(ago));
    await book.reload();
    await book.house("North house").click();
    await book.field("line").fill(`min ${ago - 2}, max ${20 + ago}`);
    await expect(book.field("low")).toHaveValue(String(ago - 2));
    await book.save.click();
    await expect(book.told).toContainText(`Saved: North house: ${ago - 2} to ${20 + ago} °C`);
    await book.lies("2026-05", 10 - ago);
  }
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  await context.setOffline(true);
  await book.reload();
  await expect(book.entries).toHaveCount(10);
  for (let ago = 9; ago >= 0; ago -= 1) {
    await expect(book.entry(`North house: ${ago - 2} to ${20 + ago} °C`)).toHaveCount(1);
  }
  await expect(book.house("North house")).toContainText("-2 to 20 °C");
  await book.house("North house").click();
  await expect(page.locator("#plot")).toContainText("Coldest: -2 °C on 20 May 2026. Hottest: 29 °C on 11 May 2026.");
});

test("steppers start from yesterday, and an untouched field is not saved", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, [...nursery, night(daysAgo(1), "6", "31")]);
  await expect(book.field("low")).toHaveAttribute("placeholder", "6");
  await expect(book.field("high")).toHaveAttribute("placeholder", "31");
  await expect(book.field("low")).toHaveValue("");
  await book.less("Minimum").click();
  await book.less("Minimum").click();
  await expect(book.field("low")).toHaveValue("4");
  await book.save.click();
  await expect(book.told).toContainText("Saved: North house: minimum 4 °C");
  // The next house takes its turn.
  await expect(book.house("South house")).toHaveAttribute("aria-pressed", "true");
  await expect(book.field("low")).toHaveValue("");
  await expect(book.field("low")).not.toHaveAttribute("placeholder", /./);
});

test("frost is entered without a minus on the keyboard", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, [...nursery, night(daysAgo(1), "1", "12")]);
  for (const value of ["0", "-1"]) {
    await book.less("Minimum").click();
    await expect(book.field("low")).toHaveValue(value);
  }
  await book.field("low").fill("3");
  await page.getByRole("button", { name: "Above or below nought: Minimum" }).click();
  await expect(book.field("low")).toHaveValue("-3");
});

test("a line is read in every way it is said", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, nursery);
  for (const [line, low, high] of [
    ["min 6, max 31", "6", "31"],
    ["max 31 min 6", "6", "31"],
    ["6/31", "6", "31"],
    ["6 31", "6", "31"],
    ["6-31", "6", "31"],
    ["-2/12", "-2", "12"],
    ["6 to 31", "6", "31"],
    ["6,5 31,2", "6,5", "31,2"],
    ["min -1.5", "-1.5", ""],
    ["max 31 °C", "", "31"],
  ]) {
    await book.field("line").fill(line!);
    await expect(book.field("low"), line).toHaveValue(low!);
    await expect(book.field("high"), line).toHaveValue(high!);
  }
  await book.field("line").fill("6,5/31");
  await book.field("line").press("Enter");
  await expect(book.told).toContainText("Saved: North house: 6,5 to 31 °C");
});

test("silly input gets a sentence at its field, and nothing is saved", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, nursery);
  await book.save.click();
  await expect(book.sentence("low")).toContainText("Nothing is typed yet.");
  await book.field("low").fill("31");
  await expect(book.sentence("low")).toBeHidden();
  await book.field("high").fill("6");
  await book.save.click();
  await expect(book.sentence("low")).toContainText("Perhaps the two are the wrong way round.");
  await book.field("low").fill("6");
  await book.field("high").fill("80");
  await book.save.click();
  await expect(book.sentence("high")).toContainText(/80.°C is too much. Between .40 and 60.°C would be right/);
  await book.field("high").fill("warm");
  await book.save.click();
  await expect(book.sentence("high")).toContainText("warm");
  await book.field("line").fill("6");
  await book.save.click();
  await expect(book.sentence("line")).toContainText("Write both, the minimum first, such as 6/31");
  await expect(book.entries).toHaveCount(0);

  await book.act("Humidity").click();
  await book.form.getByRole("button", { name: "Save", exact: true }).click();
  await expect(book.form.locator("#field-value-problem")).toBeVisible();
  await expect(book.entries).toHaveCount(0);
});

test("whatever was saved can be undone and put back", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, nursery);
  await book.field("line").fill("6/31");
  await book.save.click();
  await expect(book.entry("North house: 6 to 31 °C")).toHaveCount(1);
  await book.undo.click();
  await expect(book.told).toContainText("Taken back: North house: 6 to 31 °C");
  await expect(book.entries).toHaveCount(0);
  await book.undo.click();
  await expect(book.entry("North house: 6 to 31 °C")).toHaveCount(1);
  await book.entries.getByRole("button", { name: "Take out North house: 6 to 31 °C" }).click();
  await expect(book.entries).toHaveCount(0);
  await book.undo.click();
  await expect(book.entries).toHaveCount(1);
  await book.lies("2026-05", 5);
  await book.reload();
  await expect(book.entry("North house: 6 to 31 °C")).toHaveCount(1);
});

test("the same as yesterday is one tap, for a night and for all waterings", async ({ page }) => {
  await at(page);
  const watered = (how: string) =>
    ({ kind: "watered", set: { day: daysAgo(1), time: "06:40", place: idOf(0), how, volume: "20 L", notes: "dry at the door" } });
  const book = await DayBook.open(page, [...nursery, night(daysAgo(1), "6", "31"), watered("can"), watered("drip")]);
  await page.getByRole("button", { name: "Same as yesterday: 6 to 31 °C" }).click();
  await expect(book.told).toContainText("Saved: North house: 6 to 31 °C");
  await expect(book.entry("North house: 6 to 31 °C")).toHaveCount(2);

  await book.act("Watered").click();
  await book.form.getByRole("button", { name: "Same as yesterday: Watering: North house, can" }).click();
  // Neither the time nor the notes of yesterday are claimed for today.
  await expect(book.told).toContainText("Saved: Watering: North house, can, water 20 L; Watering: North house, drip, water 20 L");
  await expect(book.entry("Watering")).toHaveCount(4);
  await book.undo.click();
  await expect(book.entry("Watering")).toHaveCount(2);
});

test("a batch is tapped, and the thing done", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, nursery);
  await page.locator("#batches").getByRole("button", { name: "Parsley 7" }).click();
  await book.act("Cut").click();
  await expect(book.actField("day")).toHaveValue(TODAY);
  await expect(book.actField("batch")).toHaveText("Parsley 7");
  await book.actField("weight").fill("2.5");
  await book.saveAct();
  await expect(book.entry("Cut: Parsley 7, weight 2.5 kg")).toHaveCount(1);
  await expect(book.entry("Cut").getByRole("link")).toHaveAttribute("href", /^#\/thing\?id=/);
});

test("what is typed and not saved outlives a reload", async ({ page }) => {
  await at(page);
  const book = await DayBook.open(page, nursery);
  await book.house("South house").click();
  await book.field("low").fill("7");
  await book.act("Note").click();
  await book.actField("notes").fill("Whitefly under the vent");
  await expect.poll(async () => (await book.kept("question.day-book"))?.question["note/notes"]).toBe("Whitefly under the vent");
  await book.reload();
  await expect(book.house("South house")).toHaveAttribute("aria-pressed", "true");
  await expect(book.field("low")).toHaveValue("7");
  await expect(book.actField("notes")).toHaveValue("Whitefly under the vent");
});

test("of much that is found the last stands there first, and the rest when it is asked for", async ({ page }) => {
  await at(page);
  const notes = Array.from({ length: 50 }, (_, ago) => ({
    kind: "note",
    set: { day: daysAgo(ago), place: idOf(0), notes: `Whitefly ${ago}.` },
  }));
  const book = await DayBook.open(page, [...nursery, ...notes]);
  await page.getByLabel("Find words").fill("whitefly");
  await expect(book.entries).toHaveCount(40);
  await expect(page.locator("#found")).toHaveText("At least 40 found.");
  await page.getByRole("button", { name: "Earlier" }).click();
  await expect(book.entries).toHaveCount(50);
  await expect(page.locator("#found")).toHaveText("50 found.");
  await expect(page.getByRole("button", { name: "Earlier" })).toBeHidden();
  // Other words begin with the last again.
  await page.getByLabel("Find words").fill("white");
  await expect(book.entries).toHaveCount(40);
});

test("what was entered is found by words, kind, place and days, and further back", async ({ page }) => {
  await at(page);
  const notes = Array.from({ length: 30 }, (_, ago) => ({
    kind: "note",
    set: { day: daysAgo(ago), place: idOf(ago % 2), notes: ago === 25 ? "Aphids on the peppers" : `Note ${ago}.` },
  }));
  const book = await DayBook.open(page, [...nursery, ...notes, night(daysAgo(2), "6", "31")]);
  await expect(book.entries).toHaveCount(15);
  await page.getByRole("button", { name: "Earlier" }).click();
  await expect(book.entries).toHaveCount(29);
  await page.getByRole("button", { name: "Earlier" }).click();
  await expect(book.entries).toHaveCount(31);
  await expect(page.getByRole("button", { name: "Earlier" })).toBeHidden();

  await page.getByLabel("Find words").fill("aphids pep");
  await expect(book.entries).toHaveText([/Aphids on the peppers/]);
  await expect(page.locator("#found")).toHaveText("1 found.");
  await page.getByLabel("Find words").fill("blackfly");
  await expect(page.locator("#entered")).toContainText("Nothing of the kind was entered.");
  await page.getByLabel("Find words").fill("");
  await page.getByText("By kind, place and days").click();
  await page.getByLabel("Kind").selectOption("night");
  await expect(book.entries).toHaveText([/North house: 6 to 31.°C/]);
  await page.getByLabel("Kind").selectOption("");
  await page.getByLabel("Where").last().selectOption({ label: "South house" });
  await page.getByLabel("From").fill(daysAgo(5));
  await page.getByLabel("To", { exact: true }).fill(daysAgo(1));
  await expect(book.entries).toHaveText([/Note 1\./, /Note 3\./, /Note 5\./]);
});

test("at midnight a new day begins on a page that stays open", async ({ page }) => {
  await page.clock.install({ time: new Date(`${TODAY}T23:58:00`) });
  const book = await DayBook.open(page, nursery);
  await expect(page.locator("#today")).toHaveText("Wednesday, 20 May 2026");
  await book.field("line").fill("6/31");
  await book.save.click();
  await expect(book.house("North house")).toContainText("today");
  await page.clock.runFor("03:00");
  await expect(page.locator("#today")).toHaveText("Thursday, 21 May 2026");
  await expect(book.house("North house")).toContainText("yesterday");
  await book.house("North house").click();
  await expect(book.field("low")).toHaveAttribute("placeholder", "6");
  await page.getByRole("button", { name: "Same as yesterday: 6 to 31 °C" }).click();
  await expect(page.getByRole("heading", { name: "Today, 21 May 2026" })).toBeVisible();
});

test("the plot has a table behind it, and words", async ({ page }) => {
  await at(page);
  const nights = [night(daysAgo(3), "-2", "18"), night(daysAgo(2), "4", "31"), night(daysAgo(1), "6", "22")];
  const book = await DayBook.open(page, [...nursery, ...nights, night(daysAgo(2), "1", "30")]);
  const plot = page.locator("#plot");
  await expect(plot.getByRole("img", { name: "Minima and maxima by day" })).toBeVisible();
  await expect(plot.locator("circle")).toHaveCount(6);
  await expect(plot).toContainText("Coldest: -2 °C on 17 May 2026. Hottest: 31 °C on 18 May 2026.");
  await plot.getByText("The drawing as a table").click();
  await expect(plot.locator("tbody tr")).toHaveText([/19 May 2026.*6.°C.*22.°C/, /18 May 2026.*1.°C.*31.°C/, /17 May 2026.*-2.°C.*18.°C/]);
  // Another house has none yet.
  await book.house("South house").click();
  await expect(plot).toBeHidden();
});

test("a month goes on paper", async ({ page }) => {
  await at(page);
  await page.addInitScript(() => {
    window.print = () => {};
  });
  const book = await DayBook.open(page, [...nursery, night(daysAgo(1), "6", "31"), night("2026-04-30", "2", "19")]);
  await page.getByLabel("A month on paper").selectOption({ label: "April 2026" });
  await page.getByRole("button", { name: "Print the month" }).click();
  await page.emulateMedia({ media: "print" });
  await expect(page.locator("#paper")).toContainText("Day book, April 2026");
  await expect(page.locator("#paper tbody tr")).toHaveText([/Thursday, 30 April 2026.*North house: 2 to 19.°C/]);
  await expect(book.save).toBeHidden();
});

test("a name that looks like markup is a name", async ({ page }) => {
  await at(page);
  const name = "<img src=x> & <b>sons</b>";
  await DayBook.open(page, [
    { kind: "house", set: { name } },
    night(TODAY, "6", "31"),
    night(daysAgo(1), "<i>7</i>", "21"),
  ]);
  await expect(page.locator("#night-already"))
    .toHaveText(`${name} has 6 to 31 °C for today already. Saving adds a second reading.`);
  await expect(page.locator("#page :is(img, b, i)")).toHaveCount(0);
});
