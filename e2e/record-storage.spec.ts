// What is stored of the record when a write finds no room, and when a copy of it is due.
import type { Page } from "@playwright/test";
import { expect, test } from "./fixture";
import { Nursery, Thing } from "./nursery-pages";

const houses = ["North house", "South house", "East house"];

/** Writes of the record from one number to another find no room, until the page has this name. */
async function faulty(page: Page, from: number, to: number): Promise<void> {
  await page.addInitScript(([from, to]) => {
    let writes = 0;
    const write = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, text) {
      if (key.startsWith("longtom.record.") && name !== "room") {
        writes += 1;
        (globalThis as any).recordWrites = writes;
        if (writes >= from! && writes <= to!) {
          throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
        }
      }
      write.call(this, key, text);
    };
  }, [from, to]);
}

async function addHouse(page: Page, name: string, write: number): Promise<void> {
  const thing = new Thing(page);
  await page.evaluate(() => (location.hash = "#/thing?new=house"));
  await thing.field("name").fill(name);
  await thing.save.click();
  await page.waitForFunction((write) => (globalThis as any).recordWrites === write, write);
}

test.describe("no room for the record", () => {
  for (const [how, lasts] of [["once", false], ["from then on", true]] as const) {
    for (let k = 1; k <= houses.length; k += 1) {
      test(`${how} at write ${k}: a sentence, and what is stored is whole`, async ({ page }) => {
        await faulty(page, k, lasts ? houses.length : k);
        const nursery = await Nursery.open(page);
        for (const [index, name] of houses.entries()) await addHouse(page, name, index + 1);
        await expect(nursery.notice(/could not be saved/).first()).toBeVisible();
        await page.evaluate(() => (name = "room"));
        await page.goto("./#/nursery");
        await page.reload();
        await nursery.whole();
        // What found no room goes with the next save that does.
        const there = lasts || k === houses.length ? houses.slice(0, k - 1) : houses;
        for (const name of houses) {
          await expect(nursery.house(name)).toHaveCount(there.includes(name) ? 1 : 0);
        }
      });
    }
  }
});

test("a copy is asked for after a month, and no more once it is taken", async ({ page }) => {
  await page.clock.setFixedTime(new Date("2026-05-01T08:00:00Z"));
  const nursery = await Nursery.open(page);
  const due = page.locator("#copy-due");
  await page.goto("./#/thing?new=house");
  const thing = new Thing(page);
  await thing.field("name").fill("North house");
  await thing.save.click();
  await page.goto("./#/nursery");
  await expect(nursery.house("North house")).toBeVisible();
  await expect(due).toBeEmpty();
  await page.clock.setFixedTime(new Date("2026-06-05T08:00:00Z"));
  await page.reload();
  await expect(due).toContainText("This record is nowhere but in this browser.");
  await due.getByRole("link", { name: "Take a copy" }).click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Export the whole record" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("longtom-record-2026-06-05.json");
  await nursery.place("Nursery").click();
  await expect(nursery.house("North house")).toBeVisible();
  await expect(due).toBeEmpty();
  await page.clock.setFixedTime(new Date("2026-07-06T08:00:00Z"));
  await page.reload();
  await expect(due).toContainText("The last copy of this record was taken 31 days ago.");
});

test("Safari's seven days are said in words until it is on the home screen", async ({ page }) => {
  await page.addInitScript(() => Object.defineProperty(navigator, "standalone", { get: () => false }));
  const nursery = await Nursery.open(page);
  await page.goto("./#/thing?new=house");
  const thing = new Thing(page);
  await thing.field("name").fill("North house");
  await thing.save.click();
  await page.goto("./#/nursery");
  await expect(nursery.house("North house")).toBeVisible();
  await expect(page.locator("#copy-due")).toContainText("Safari clears it after seven days without a visit");
});
