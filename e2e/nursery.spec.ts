// The nursery's record: written down by its forms, still there after a reload, taken out and brought
// in elsewhere without loss, and nothing silly let in.
import type { Browser, Page } from "@playwright/test";
import { everySize, expect, type Guard, test } from "./fixture";
import { Files, Nursery, Thing } from "./nursery-pages";
import { Shell, textOf } from "./pages";

/** A file as a thermometer writes it: ten whole nights, a reading every two hours. */
function tenNights(): string {
  const lines = ["Date;Time;Temp (°C)"];
  for (let hour = 12; hour < 12 + 24 * 10 + 1; hour += 2) {
    const at = new Date(Date.UTC(2026, 4, 1, hour));
    const iso = at.toISOString();
    const warmth = 14 - 8 * Math.cos(((at.getUTCHours() - 4) / 12) * Math.PI);
    lines.push(`${iso.slice(8, 10)}.${iso.slice(5, 7)}.2026;${iso.slice(11, 16)};${warmth.toFixed(1).replace(".", ",")}`);
  }
  return `${lines.join("\r\n")}\r\n`;
}

const picture = Buffer.from("89504e470d0a1a0a0000000d4948445200000001000000010802000000907753de", "hex");

/** Enters a small nursery on an empty device: a house, two bays and a heated bench, a seed lot, a mix, a batch. */
async function enter(nursery: Nursery): Promise<void> {
  const { page } = nursery;
  await nursery.link("Add your house").click();
  const thing = new Thing(page);
  await expect(thing.save).toBeVisible();
  await thing.fill({ name: "North house", cover: "=glass", heated: "=not heated" });
  await thing.save.click();
  await nursery.whole();
  await expect(nursery.done).toContainText("North house: House entered.");

  for (const [name, standing] of [["Slats", "raised"], ["Ground", "on the floor"], ["Warm", "on a heated bench"]]) {
    await nursery.house("North house").getByRole("link", { name: "Add a bay or bench" }).click();
    await expect(thing.field("inside")).toContainText("North house");
    await thing.fill({ name: name!, standing: `=${standing}` });
    if (name === "Warm") await thing.fill({ set_point: "20" });
    await thing.save.click();
    await nursery.whole();
    await expect(nursery.bay(name!)).toContainText(standing!);
  }
  await thing.add("seed_lot", { name: "Parsley seed", crop: ">parsley", germination: "80" });
  await thing.add("mix", { name: "Shop mix", purpose: "=young plants" });
  await nursery.bay("Slats").getByRole("link", { name: "Add a batch here" }).click();
  await thing.fill({
    name: "Parsley 1", crop: ">parsley", seed_lot: ">Parsley seed", number: "240", mix: ">Shop mix",
  });
  await thing.save.click();
  await nursery.whole();
}

test("offline on an empty device: house, bays, bench, seed, mix and batch are there after a reload", everySize, async ({ page, context }) => {
  await new Shell(page).storedHere();
  await context.setOffline(true);
  const nursery = new Nursery(page);
  await nursery.place("Nursery").click();
  await nursery.whole();
  await expect(nursery.plan).toContainText("Add your house, then its bays and benches.");
  await enter(nursery);
  const thing = new Thing(page);
  await nursery.reload();
  await nursery.whole();
  await expect(nursery.bay("Slats")).toContainText("Parsley 1");
  await expect(nursery.bay("Slats")).toContainText("parsley, 240");
  await expect(nursery.bay("Ground")).toContainText("on the floor");
  await expect(nursery.bay("Warm")).toContainText("on a heated bench");
  await expect(nursery.group("Mixes")).toContainText("Shop mix");
  await expect(nursery.group("Seed lots")).toContainText("Parsley seed");
  await expect(nursery.odd).toBeEmpty();

  // What was done with a batch is two touches away.
  await nursery.bay("Slats").getByRole("link", { name: /^Parsley 1/ }).click();
  await page.getByRole("link", { name: "Moved", exact: true }).click();
  await thing.fill({ to: ">Warm" });
  await thing.save.click();
  await expect(page.locator("#about")).toContainText("moved");
  await nursery.place("Nursery").click();
  await expect(nursery.bay("Warm")).toContainText("Parsley 1");
  await expect(nursery.bay("Warm")).toContainText("moved");
});

test("a batch and a bay go on paper", async ({ page }) => {
  await page.addInitScript(() => {
    window.print = () => {};
  });
  const nursery = await Nursery.open(page);
  await enter(nursery);
  const paper = page.locator("#thing-paper");
  for (const [name, says] of [
    [/^Parsley 1/, ["Parsley 1", "Batch, as of", "parsley", "240", "Slats", "Shop mix", "By hand"]],
    [/^Slats/, ["Slats", "Bay, as of", "raised", "North house", "Parsley 1", "By hand"]],
  ] as const) {
    await nursery.bay("Slats").getByRole("link", { name }).first().click();
    await page.getByRole("button", { name: "Print a sheet" }).click();
    await page.emulateMedia({ media: "print" });
    await expect(paper).toBeVisible();
    for (const words of says) await expect(paper).toContainText(words);
    await expect(page.getByRole("button", { name: "Print a sheet" })).toBeHidden();
    await page.emulateMedia({ media: "screen" });
    await expect(paper).toBeHidden();
    await nursery.place("Nursery").click();
    await nursery.whole();
  }
});

test.describe("silly input gets its sentence, and is kept", () => {
  test.beforeEach(async ({ page }) => {
    await new Shell(page).go("./");
    const thing = new Thing(page);
    await thing.add("house", { name: "North" });
    await thing.add("bay", { name: "Slats", inside: ">North" });
  });

  test("a minimum above the maximum", async ({ page }) => {
    const thing = new Thing(page);
    await thing.go("./#/thing?new=night");
    await thing.fill({ place: ">Slats", low: "31", high: "6" });
    await thing.save.click();
    await expect(thing.sentence("low")).toHaveText("Minimum is above “maximum”. Perhaps the two are the wrong way round.");
    await expect(thing.field("low")).toBeFocused();
    await expect(thing.unsaved).toBeVisible();
    await page.waitForTimeout(600);
    await thing.reload();
    await expect(thing.field("low")).toHaveValue("31");
    await expect(thing.unsaved).toBeVisible();
    await page.getByRole("button", { name: "Throw away what is not saved" }).click();
    await expect(thing.field("low")).toHaveValue("");
  });

  test("a bay inside itself", async ({ page }) => {
    const nursery = await Nursery.open(page);
    await nursery.bay("Slats").getByRole("link", { name: /^Slats/ }).click();
    const thing = new Thing(page);
    await thing.choose("inside", "Slats", /Slats/);
    await thing.save.click();
    await expect(thing.sentence("inside")).toHaveText("Slats would stand inside itself. Choose what it stands in.");
  });

  test("a batch moved before it was sown, and 31 February", async ({ page }) => {
    const thing = new Thing(page);
    await thing.add("batch", { name: "Chives", crop: ">chives", sown: "2026-05-03" });
    const nursery = await Nursery.open(page);
    await nursery.link(/^Chives/).first().click();
    await page.getByRole("link", { name: "Moved", exact: true }).click();
    await thing.fill({ day: "2026-04-01" });
    await thing.save.click();
    await expect(thing.sentence("day")).toContainText("is before Chives was sown or struck, on 3 May 2026.");
    // A calendar of the browser lets no such day be typed; an address can ask for it.
    await thing.go("./#/thing?new=note&day=2026-02-31&notes=x");
    await thing.save.click();
    await expect(thing.sentence("day")).toContainText(/A day from 1 to 28|Day is needed here/);
  });
});

/** A house with a bay, taken out as a file. */
async function northWithSlats(page: Page, thing: Thing): Promise<string> {
  await new Shell(page).go("./");
  await thing.add("house", { name: "North" });
  await thing.add("bay", { name: "Slats", inside: ">North" });
  return (await Files.open(page)).record();
}

/** A page on a device of its own, watched as the first one is. */
async function otherDevice(browser: Browser, guard: Guard, baseURL: string): Promise<Page> {
  const context = await browser.newContext({ baseURL });
  await guard.watch(context);
  return context.newPage();
}

test("two devices change the same record: nothing lost, nothing doubled, and a clash is settled", async ({ page, browser, guard, baseURL }) => {
  const thing = new Thing(page);
  const first = await northWithSlats(page, thing);

  const other = await otherDevice(browser, guard, baseURL!);
  const files = await Files.open(other);
  await files.choose("record.json", first);
  await expect(files.found).toContainText("2 entries are new, 0 here already.");
  await expect(files.found).toContainText("North (house)");
  await files.found.getByRole("button", { name: "Take it in" }).click();
  await expect(files.found).toContainText("2 entries were taken in.");
  await files.choose("record.json", first);
  await expect(files.found).toContainText("Everything in this file is here already.");

  // Both change the name of the bay, and each adds something of its own.
  const rename = async (on: typeof page, name: string, house: string) => {
    const nursery = await Nursery.open(on);
    await nursery.bay("Slats").getByRole("link", { name: /^Slats/ }).click();
    const thing = new Thing(on);
    await thing.fill({ name });
    await thing.save.click();
    await nursery.whole();
    await thing.add("house", { name: house });
  };
  await rename(page, "Slats by the door", "West");
  await rename(other, "Old slats", "East");
  const [mine, theirs] = [await (await Files.open(page)).record(), await (await Files.open(other)).record()];
  for (const [on, file] of [[page, theirs], [other, mine]] as const) {
    const files = await Files.open(on);
    await files.choose("other.json", file);
    await expect(files.found).toContainText("1 field was changed on both devices.");
    await files.found.getByRole("button", { name: "Take it in" }).click();
    await expect(files.found).toContainText("2 entries were taken in.");
  }
  const entries = (file: string) => JSON.parse(file).entries.map((entry: { id: string }) => entry.id).toSorted();
  const after = await (await Files.open(page)).record();
  expect(entries(after)).toEqual(entries(await (await Files.open(other)).record()));
  expect(entries(after)).toHaveLength(6);

  const nursery = await Nursery.open(page);
  await expect(nursery.odd).toContainText("two devices say different things");
  await nursery.odd.getByRole("link").click();
  await expect(thing.clashes).toContainText("Slats by the door");
  await expect(thing.clashes).toContainText("Old slats");
  await thing.clashes.getByRole("button", { name: "Take this one: Old slats" }).click();
  await expect(thing.clashes).toBeEmpty();
  await expect(thing.field("name")).toHaveValue("Old slats");
  await (await Nursery.open(page)).reload();
  await expect(nursery.bay("Old slats")).toBeVisible();
  await expect(nursery.odd).toBeEmpty();
  await other.context().close();
});

test("garbage, pictures and a newer record are refused with a sentence", async ({ page }) => {
  const files = await Files.open(page);
  for (const [name, content, sentence] of [
    ["x.json", "{\"longtom\":", "This file is cut off or was not written by Longtom."],
    ["x.json", "{\"a\":1}", "This file is no record of Longtom."],
    ["x.json", "{\"longtom\":\"record\",\"schema\":99,\"entries\":[]}", "written by a newer Longtom"],
    ["readings.csv", picture, "This is a picture, a workbook or another file that holds no plain text."],
    ["readings.csv", "   ", "There is nothing in this file."],
    ["readings.csv", "a,b\nc,d\n", "No column of days was found in this file."],
  ] as const) {
    await files.choose(name, content as string);
    await expect(files.found).toContainText(sentence);
    await expect(files.found.locator("button")).toHaveCount(0);
  }
});

test("ten nights out of a thermometer's file, and the same file again adds nothing", everySize, async ({ page }) => {
  const thing = new Thing(page);
  await new Shell(page).go("./");
  await thing.add("house", { name: "North" });
  const files = await Files.open(page);
  await files.choose("readings.csv", tenNights());
  await expect(files.found.getByLabel("Between the columns")).toHaveValue("1");
  await expect(files.found.getByLabel("Decimal mark")).toHaveValue("1");
  await expect(files.found).toContainText("121 readings from 1 May 2026 to 11 May 2026.");
  const write = files.found.getByRole("button", { name: "Write 10 nights into the day book" });
  await expect(write).toBeVisible();
  // A wrong order of dates is seen at once, and put right again.
  await files.found.getByLabel("Order of dates").selectOption({ label: "month, day, year" });
  await expect(files.found).toContainText("121 readings from 5 January 2026 to 5 November 2026.");
  await expect(files.found.getByLabel("Order of dates")).toBeFocused();
  await files.found.getByLabel("Order of dates").selectOption({ label: "day, month, year" });
  await write.click();
  await expect(files.found).toContainText("10 entries were written into the day book.");
  await files.choose("readings.csv", tenNights());
  await expect(files.found).toContainText("All of it is in the day book already. Nothing is added.");
  const download = await files.download(/^Minima and maxima \(10\)/);
  expect(download.suggestedFilename()).toMatch(/^minima-and-maxima-\d{4}-\d\d-\d\d\.csv$/);
  expect((await textOf(download)).trim().split("\r\n")).toHaveLength(11);
});

test("what a file has brought can be undone as a whole, and brought in again", async ({ page, browser, guard, baseURL }) => {
  const thing = new Thing(page);
  const first = await northWithSlats(page, thing);
  const other = await otherDevice(browser, guard, baseURL!);
  await (await Files.open(other)).choose("record.json", first);
  await other.getByRole("button", { name: "Take it in" }).click();
  // There the bay is renamed and the house taken out, and another comes.
  const there = await Nursery.open(other);
  await there.bay("Slats").getByRole("link", { name: /^Slats/ }).click();
  await new Thing(other).fill({ name: "Old slats" });
  await new Thing(other).save.click();
  await there.whole();
  await new Thing(other).add("house", { name: "East" });
  await there.go("./#/nursery");
  await there.link("North").first().click();
  await other.getByRole("button", { name: "Take out of the record" }).click();
  const file = await (await Files.open(other)).record();
  await other.context().close();

  const files = await Files.open(page);
  await files.choose("other.json", file);
  await files.found.getByRole("button", { name: "Take it in" }).click();
  await expect(files.found).toContainText("3 entries were taken in.");
  const undo = files.found.getByRole("button", { name: "Undo all of it" });
  const again = files.found.getByRole("button", { name: "Bring it in again" });
  await expect(undo).toBeFocused();
  await undo.click();
  await expect(files.found).toContainText("All that the file has brought is undone. What was here before is as it was.");
  await expect(again).toBeFocused();
  const nursery = await Nursery.open(page);
  for (const reload of [false, true]) {
    if (reload) await nursery.reload();
    await expect(nursery.house("North")).toBeVisible();
    await expect(nursery.bay("Slats")).toBeVisible();
    await expect(nursery.house("East")).toHaveCount(0);
    await expect(nursery.odd).toBeEmpty();
  }
  // The file is here already, and its undoing is kept beside it: nothing of either is lost.
  await (await Files.open(page)).choose("other.json", file);
  await expect(files.found).toContainText("Everything in this file is here already, and 3 steps were undone here.");
  await again.click();
  await expect(files.found).toContainText("All that the file has brought counts again.");
  await Nursery.open(page);
  await expect(nursery.house("East")).toBeVisible();
  await expect(nursery.house("North")).toHaveCount(0);
  await (await Files.open(page)).choose("other.json", file);
  await expect(files.found).toContainText("Everything in this file is here already. Nothing would change.");
  await thing.add("house", { name: "West" });
  await Files.open(page);

  await files.choose("readings.csv", tenNights());
  await files.found.getByLabel("Where the thermometer is").selectOption({ label: "West" });
  await files.found.getByRole("button", { name: "Write 10 nights into the day book" }).click();
  await undo.click();
  await expect(files.found).toContainText("All that the file has brought is undone.");
  await expect(page.locator("#out").getByRole("button", { name: /^Minima and maxima/ })).toHaveCount(0);
  await again.click();
  await expect(files.found).toContainText("All that the file has brought counts again.");
  await expect(page.locator("#out").getByRole("button", { name: "Minima and maxima (10)" })).toBeVisible();
});

test("what was taken out comes back, and every step can be undone", async ({ page }) => {
  const thing = new Thing(page);
  await new Shell(page).go("./");
  await thing.add("house", { name: "North" });
  const nursery = await Nursery.open(page);
  await nursery.link("North").click();
  await page.getByRole("button", { name: "Take out of the record" }).click();
  await expect(page.getByText("This has been taken out of the record.")).toBeVisible();
  await thing.reload();
  await thing.story.locator("summary").click();
  await thing.story.getByRole("listitem").filter({ hasText: "Withdrawn." }).getByRole("button", { name: "Undo" }).click();
  await expect(page.getByText("This has been taken out of the record.")).toHaveCount(0);
  await page.getByRole("button", { name: "Take out of the record" }).click();
  await page.getByRole("button", { name: "Bring it back" }).click();
  await nursery.place("Nursery").click();
  await expect(nursery.house("North")).toBeVisible();
  await nursery.done.getByRole("button", { name: "Undo" }).click();
  await expect(nursery.house("North")).toHaveCount(0);
  await expect(nursery.group("Taken out of the record")).toContainText("North");
});

test("the demo nursery loads beside the record, offline too, and leaves no trace", everySize, async ({ page, context }) => {
  await new Shell(page).storedHere();
  await context.setOffline(true);
  const thing = new Thing(page);
  await thing.add("house", { name: "My own" });
  const nursery = await Nursery.open(page);
  await expect(nursery.house("My own")).toBeVisible();
  const lies = () => page.evaluate(() => JSON.stringify(Object.entries(localStorage).toSorted()));
  const before = await lies();
  await page.getByRole("button", { name: "Show the demo nursery" }).click();
  await expect(nursery.notice("This is the demo nursery. Nothing of it is stored.")).toBeVisible();
  await expect(nursery.house("Top house")).toBeVisible();
  await expect(nursery.house("My own")).toHaveCount(0);
  await expect(nursery.odd).toBeEmpty();
  // It can be worked in, and nothing of that is kept.
  await nursery.house("Top house").getByRole("link", { name: "Add a bay or bench" }).click();
  await thing.fill({ name: "Tried out" });
  await thing.save.click();
  await expect(nursery.bay("Tried out")).toBeVisible();
  await page.waitForTimeout(500);
  expect(await lies()).toBe(before);
  await page.getByRole("button", { name: "Leave the demo" }).click();
  await expect(nursery.house("My own")).toBeVisible();
  await expect(nursery.house("Top house")).toHaveCount(0);
  expect(await lies()).toBe(before);
});

test("two tabs that write at once see each other's entries", async ({ page, context }) => {
  const one = await Nursery.open(page);
  const second = await context.newPage();
  const two = await Nursery.open(second);
  await Promise.all([
    new Thing(page).add("house", { name: "From one" }),
    new Thing(second).add("house", { name: "From two" }),
  ]);
  for (const nursery of [one, two]) {
    await expect(nursery.house("From one")).toBeVisible();
    await expect(nursery.house("From two")).toBeVisible();
  }
  await one.reload();
  await expect(one.house("From one")).toBeVisible();
  await expect(one.house("From two")).toBeVisible();
});

test("two tabs fill in the same form, and each finds its own again", async ({ page, context }) => {
  await Nursery.open(page);
  const tabs = [page, await context.newPage()].map((tab) => new Thing(tab));
  const open = (thing: Thing) => thing.go("./#/thing?new=house");
  for (const thing of tabs) await open(thing);
  // At once, letter by letter, so that each is saved while the other is.
  const names = ["From the first", "From the second"];
  await Promise.all(tabs.map((thing, place) => thing.field("name").pressSequentially(names[place]!, { delay: 120 })));
  for (const thing of tabs) await thing.page.waitForTimeout(600);
  for (const [place, thing] of tabs.entries()) {
    await thing.reload();
    await expect(thing.field("name")).toHaveValue(names[place]!);
    await expect(thing.unsaved).toBeVisible();
  }
  // And of different things.
  await tabs[1]!.go("./#/thing?new=bay");
  await tabs[1]!.field("name").fill("A bay");
  await tabs[0]!.field("name").fill("First, once more");
  await tabs[1]!.page.waitForTimeout(600);
  for (const thing of tabs) await thing.reload();
  await expect(tabs[0]!.field("name")).toHaveValue("First, once more");
  await expect(tabs[1]!.field("name")).toHaveValue("A bay");
  await tabs[1]!.page.close();

  // Saved, its own is gone, and what the other tab has left is there to be gone on with.
  await tabs[0]!.save.click();
  const nursery = new Nursery(page);
  await nursery.whole();
  await open(tabs[0]!);
  await expect(tabs[0]!.field("name")).toHaveValue("From the second");
  await tabs[0]!.save.click();
  await nursery.whole();
  await expect(nursery.house("First, once more")).toBeVisible();
  await expect(nursery.house("From the second")).toBeVisible();
  await open(tabs[0]!);
  await expect(tabs[0]!.field("name")).toHaveValue("");
  await expect(tabs[0]!.unsaved).toBeHidden();
});

test("a draft that another tab has taken up and saved stays with the tab that still shows it", async ({ page, context }) => {
  const tabs = [page, await context.newPage()].map((tab) => new Thing(tab));
  await Nursery.open(page);
  await tabs[0]!.go("./#/thing?new=house");
  await tabs[0]!.field("name").fill("Begun in the first");
  await page.waitForTimeout(600);
  await tabs[1]!.go("./#/thing?new=house");
  await expect(tabs[1]!.field("name")).toHaveValue("Begun in the first");
  await tabs[1]!.field("name").fill("Made in the second");
  await tabs[1]!.save.click();
  await new Nursery(tabs[1]!.page).whole();
  await page.waitForTimeout(600);
  await tabs[0]!.reload();
  await expect(tabs[0]!.field("name")).toHaveValue("Begun in the first");
  await page.getByRole("button", { name: "Throw away what is not saved" }).click();
  await expect(tabs[0]!.field("name")).toHaveValue("");
  await page.waitForTimeout(600);
  await tabs[0]!.reload();
  await expect(tabs[0]!.field("name")).toHaveValue("");
});

test("a number is stepped as far down as it may be, and no further", async ({ page }) => {
  const thing = new Thing(page);
  await new Shell(page).go("./");
  const less = (label: string) => page.getByRole("button", { name: `Less: ${label}`, exact: true });
  const sign = (label: string) => page.getByRole("button", { name: `Above or below nought: ${label}`, exact: true });
  await thing.go("./#/thing?new=place");
  const latitude = thing.field("latitude");
  await latitude.fill("1");
  for (const shown of ["0", "-1", "-2"]) {
    await less("Degrees north").click();
    await expect(latitude).toHaveValue(shown);
  }
  await latitude.fill("-65.5");
  for (const shown of ["-66", "-66"]) {
    await less("Degrees north").click();
    await expect(latitude).toHaveValue(shown);
  }
  await sign("Degrees north").click();
  await expect(latitude).toHaveValue("66");

  await thing.go("./#/thing?new=night");
  const low = thing.field("low");
  await low.fill("-39");
  for (const shown of ["-40", "-40"]) {
    await less("Minimum").click();
    await expect(low).toHaveValue(shown);
  }
  // What is a number of things never goes below nought.
  await thing.go("./#/thing?new=batch");
  await thing.fill({ number: "2" });
  for (const shown of ["1", "1"]) {
    await less("How many").click();
    await expect(thing.field("number")).toHaveValue(shown);
  }
  await expect(sign("How many")).toHaveCount(0);
});

test("offline, a small nursery is entered, taken to another device, changed on both and merged both ways", async ({ page, browser, guard, baseURL }) => {
  test.setTimeout(180_000);
  const other = await otherDevice(browser, guard, baseURL!);
  const devices = [page, other];
  for (const device of devices) {
    await device.setViewportSize({ width: 820, height: 1180 });
    await new Shell(device).storedHere();
    await device.context().setOffline(true);
  }
  const nurseries = devices.map((device) => new Nursery(device));
  for (const nursery of nurseries) {
    await nursery.place("Nursery").click();
    await nursery.whole();
    await expect(nursery.plan).toContainText("Nothing is written down yet.");
  }
  const [here, there] = nurseries as [Nursery, Nursery];
  const record = async (device: typeof page) => (await Files.open(device)).record();
  type Entries = { id: string; add?: string; set?: Record<string, string> }[];
  const entriesOf = (file: string): Entries =>
    (JSON.parse(file).entries as Entries).toSorted((one, two) => (one.id < two.id ? -1 : 1));
  const kinds = (file: string) => entriesOf(file).flatMap(({ add }) => add ?? []).toSorted();

  // Entered, with ten nights of readings, and there after a reload.
  await enter(here);
  let files = await Files.open(page);
  await files.choose("readings.csv", tenNights());
  await files.found.getByLabel("Where the thermometer is").selectOption({ label: "North house" });
  await files.found.getByRole("button", { name: "Write 10 nights into the day book" }).click();
  await expect(files.found).toContainText("10 entries were written into the day book.");
  const entered = await record(page);
  await page.reload();
  const first = await record(page);
  expect(entriesOf(first)).toEqual(entriesOf(entered));
  expect(kinds(first)).toEqual([
    "batch", "bay", "bay", "bay", "house", "mix", ...Array.from({ length: 10 }, () => "night"), "seed_lot",
  ]);

  // Taken to the other device.
  files = await Files.open(other);
  await files.choose("record.json", first);
  await expect(files.found).toContainText("17 entries are new, 0 here already.");
  await files.found.getByRole("button", { name: "Take it in" }).click();
  await expect(files.found).toContainText("17 entries were taken in.");
  expect(entriesOf(await record(other))).toEqual(entriesOf(first));

  // Changed on both.
  await here.go("./#/nursery");
  await here.bay("Slats").getByRole("link", { name: /^Slats/ }).click();
  const thing = new Thing(page);
  await thing.fill({ name: "Slats by the door" });
  await thing.save.click();
  await here.whole();
  await thing.add("note", { notes: "Written here" });
  await there.go("./#/nursery");
  await there.bay("Slats").getByRole("link", { name: /^Parsley 1/ }).click();
  await other.getByRole("link", { name: "Moved", exact: true }).click();
  const far = new Thing(other);
  await far.fill({ to: ">Warm" });
  await far.save.click();
  await expect(other.locator("#about")).toContainText("moved");
  await far.add("house", { name: "South house" });
  await far.add("note", { notes: "Written there" });

  // Merged both ways, and once more: nothing lost, nothing doubled.
  const mine = await record(page);
  const theirs = await record(other);
  for (const [device, file, changes] of [[page, theirs, 3], [other, mine, 2], [page, theirs, 0], [other, mine, 0]] as const) {
    files = await Files.open(device);
    await files.choose("record.json", file);
    if (changes === 0) {
      await expect(files.found).toContainText("Everything in this file is here already. Nothing would change.");
      continue;
    }
    await expect(files.found).toContainText(`${changes} entries are new, 17 here already.`);
    await files.found.getByRole("button", { name: "Take it in" }).click();
    await expect(files.found).toContainText(`${changes} entries were taken in.`);
  }
  for (const reloaded of [false, true]) {
    const after = [];
    for (const [place, device] of devices.entries()) {
      if (reloaded) await device.reload();
      const nursery = nurseries[place]!;
      await nursery.go("./#/nursery");
      await nursery.whole();
      await expect(nursery.bay("Slats by the door")).toBeVisible();
      await expect(nursery.bay("Warm")).toContainText("Parsley 1");
      await expect(nursery.house("South house")).toBeVisible();
      await expect(nursery.odd).toBeEmpty();
      after.push(await record(device));
      const download = await (await Files.open(device)).download(/^Minima and maxima \(10\)/);
      expect((await textOf(download)).trim().split("\r\n")).toHaveLength(11);
    }
    const ids = [mine, theirs].flatMap((file) => entriesOf(file).map(({ id }) => id));
    expect(entriesOf(after[0]!).map(({ id }) => id)).toEqual([...new Set(ids)].toSorted());
    expect(entriesOf(after[0]!)).toHaveLength(22);
    expect(entriesOf(after[1]!)).toEqual(entriesOf(after[0]!));
  }
  await other.context().close();
});
