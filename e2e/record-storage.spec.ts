// What is stored of the record: when a write finds no room, when a copy of it is due, when two pages
// close months at once, and when a closed month is damaged.
import type { Page } from "@playwright/test";
import { expect, test } from "./fixture";
import { Files, Nursery, Thing } from "./nursery-pages";
import { Settings, Shell, stop, textOf } from "./pages";

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
        // What fails once is made good by the next save, and its sentence goes.
        const told = nursery.notice(/could not be saved/);
        if (lasts || k === houses.length) await expect(told.first()).toBeVisible();
        else await expect(told).toHaveCount(0);
        await page.evaluate(() => (name = "room"));
        await page.goto("./#/nursery");
        await page.reload();
        await nursery.whole();
        // What found no room is saved when the page is left, at the latest.
        for (const name of houses) await expect(nursery.house(name)).toHaveCount(1);
      });
    }
  }
});

test.describe("what found no room", () => {
  const unsaved = /The record of the nursery could not be saved/;

  test("and never does, is gone with the page, and all else is whole", async ({ page }) => {
    await faulty(page, 2, 1000);
    const nursery = await Nursery.open(page);
    await addHouse(page, houses[0]!, 1);
    await addHouse(page, houses[1]!, 2);
    await expect(nursery.notice(unsaved)).toBeVisible();
    await page.goto("./#/nursery");
    await page.reload();
    await nursery.whole();
    await expect(nursery.house(houses[0]!)).toHaveCount(1);
    await expect(nursery.house(houses[1]!)).toHaveCount(0);
    await expect(nursery.notice(unsaved)).toHaveCount(0);
  });

  for (const [how, make] of [
    ["something set aside is thrown away", async (page: Page) => {
      await page.evaluate(() => (location.hash = "#/settings"));
      const settings = new Settings(page);
      await settings.asides.getByRole("button", { name: "Throw away" }).click();
      await settings.asides.getByRole("button", { name: "Throw away for good" }).click();
    }],
    ["another page of the site clears what is its own", async (page: Page) => {
      const other = await page.context().newPage();
      await other.goto("./");
      await other.evaluate(() => localStorage.removeItem("other"));
    }],
    ["its button is pressed", async (page: Page) => {
      await page.evaluate(() => localStorage.removeItem("other"));
      await page.getByRole("button", { name: "Save it now" }).click();
    }],
    ["a while has passed", async (page: Page) => {
      await page.evaluate(() => localStorage.removeItem("other"));
    }],
  ] as const) {
    test(`is saved by itself once ${how}`, async ({ page }) => {
      test.setTimeout(90_000);
      const nursery = await Nursery.open(page);
      await new Thing(page).add("house", { name: "North house" });
      await page.evaluate(() => {
        localStorage.setItem("longtom.aside.0001.settings.a", JSON.stringify("damaged ".repeat(2000)));
        const used = Object.entries(localStorage).reduce((units, [key, text]) => units + key.length + text.length, 0);
        localStorage.setItem("other", "x".repeat(5_242_880 - used - 20 - "other".length));
      });
      await page.evaluate(() => (location.hash = "#/thing?new=house"));
      const thing = new Thing(page);
      await thing.field("name").fill("South house");
      await thing.save.click();
      await expect(nursery.notice(unsaved)).toBeVisible();
      await make(page);
      await expect(nursery.notice(unsaved)).toHaveCount(0, { timeout: 40_000 });
      await expect.poll(async () => JSON.stringify(await nursery.kept("record.standing"))).toContain("South house");
    });
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

test.describe("the browser is asked to keep what is stored", () => {
  /** Counts how often it is asked. */
  test.beforeEach(async ({ page }) => {
    await page.addInitScript(() => {
      (globalThis as any).timesAsked = 0;
      navigator.storage.persist = async () => {
        (globalThis as any).timesAsked += 1;
        return true;
      };
    });
  });
  const timesAsked = (page: Page) => page.evaluate(() => (globalThis as any).timesAsked as number);
  const add = async (page: Page, name: string) => {
    await page.evaluate(() => (location.hash = "#/thing?new=house"));
    const thing = new Thing(page);
    await thing.field("name").fill(name);
    await thing.save.click();
  };

  test("once, after the first entry, and not for the demo nursery", async ({ page }) => {
    const nursery = await Nursery.demo(page);
    await add(page, "Made up");
    await expect(nursery.house("Made up")).toBeVisible();
    await page.getByRole("button", { name: "Leave the demo" }).click();
    await nursery.whole();
    expect(await timesAsked(page)).toBe(0);
    await add(page, "North house");
    await expect(nursery.house("North house")).toBeVisible();
    await expect.poll(() => timesAsked(page)).toBe(1);
    await add(page, "South house");
    await expect(nursery.house("South house")).toBeVisible();
    expect(await timesAsked(page)).toBe(1);
  });

  test("after a record has been brought in", async ({ page }) => {
    const files = await Files.open(page);
    const entries = [{ id: "afield.1.a2b4", at: 29000000, add: "house", set: { name: "North house" } }];
    await files.choose("record.json", JSON.stringify({ longtom: "record", schema: 1, entries }));
    await expect(page.getByRole("button", { name: "Take it in" })).toBeVisible();
    expect(await timesAsked(page)).toBe(0);
    await page.getByRole("button", { name: "Take it in" }).click();
    await expect.poll(() => timesAsked(page)).toBe(1);
  });
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

/** Asks something of the archive of closed months, as the program does. */
const ask = (on: Page, ...about: (string | undefined)[]): Promise<any> =>
  on.evaluate((about) => (globalThis as any).longtomArchived(...about), about);

/** Writes a note into the day book for a day. */
const note = (on: Page, day: string, notes: string) => new Thing(on).add("note", { notes }, `&day=${day}`);

/** The notes in a record's file, in order. */
function notesIn(record: string): string[] {
  const entries: { add?: string; set?: { notes?: string } }[] = JSON.parse(record).entries;
  return entries.flatMap(({ add, set }) => (add === "note" ? [set!.notes!] : [])).toSorted();
}

/** Waits until a month is in the archive and no more on the shelf. */
async function closed(nursery: Nursery, month: string): Promise<void> {
  await expect.poll(() => ask(nursery.page, "names")).toContain(month);
  await expect.poll(async () => (await nursery.kept(`record.${month}`))?.entries ?? []).toEqual([]);
}

test.describe("closed months", () => {
  test("are only written over what was seen there", async ({ page, context }) => {
    await Nursery.open(page);
    const second = await context.newPage();
    await Nursery.open(second);
    const both = [page, second];
    for (const round of [1, 2, 3]) {
      const [seen] = (await ask(page, "look", "2020-01")) ?? [];
      const done = await Promise.all(both.map((on, place) => ask(on, "replace", "2020-01", `${round} by ${place}`, seen)));
      expect(done.toSorted()).toEqual([false, true]);
      const [, text] = await ask(second, "look", "2020-01");
      expect(text).toBe(`${round} by ${done.indexOf(true)}`);
      expect(await ask(second, "setAside", "2020-01", undefined, seen ?? "none")).toBe(false);
    }
    expect(await ask(page, "names")).toEqual(["2020-01"]);
    expect(await ask(page, "asides")).toBe("");
  });

  test("are closed by two pages at once, with no locks to be had, and nothing is lost", async ({ page, context }) => {
    await context.addInitScript(() => Object.defineProperty(navigator, "locks", { get: () => undefined }));
    const second = await context.newPage();
    const both = [await Nursery.open(page), await Nursery.open(second)];
    const written: string[] = [];
    for (let round = 0; round < 3; round += 1) {
      for (const [place, { page }] of both.entries()) {
        for (const month of ["2025-03", "2025-04"]) {
          written.push(`${month}, ${round}, by ${place}`);
          await note(page, `${month}-07`, written.at(-1)!);
        }
      }
      for (const nursery of both) await nursery.go("./#/nursery");
      await Promise.all(both.map((nursery) => nursery.reload()));
      for (const nursery of both) await nursery.whole();
      for (const month of ["2025-03", "2025-04"]) await closed(both[0]!, month);
    }
    await page.reload();
    for (const { page } of both) expect(notesIn(await (await Files.open(page)).record())).toEqual(written.toSorted());
  });

  test("that another page has closed are not put back by one that still knows them", async ({ page, context }) => {
    const one = await Nursery.open(page);
    await note(page, "2025-03-07", "first");
    const two = await Nursery.open(await context.newPage());
    await closed(two, "2025-03");
    // Both know it; what comes late to the one is closed by the other, which hears of it.
    await note(page, "2025-03-08", "second");
    await closed(two, "2025-03");
    await note(two.page, "2025-03-09", "third");
    await closed(two, "2025-03");
    await one.reload();
    for (const { page } of [one, two]) {
      expect(notesIn(await (await Files.open(page)).record())).toEqual(["first", "second", "third"]);
    }
  });

  test("that are damaged are set aside, offered as a file, and used again", async ({ page }) => {
    const nursery = await Nursery.open(page);
    await note(page, "2025-03-07", "in March");
    await note(page, "2025-04-07", "in April");
    await nursery.go("./#/nursery");
    await nursery.reload();
    await closed(nursery, "2025-03");
    await closed(nursery, "2025-04");
    // One byte of it is another.
    const damaged = await page.evaluate(async () => {
      const database: IDBDatabase = await new Promise((done) => {
        const asked = indexedDB.open("longtom", 1);
        asked.onsuccess = () => done(asked.result);
      });
      const months = database.transaction("months", "readwrite").objectStore("months");
      return new Promise<number[]>((done) => {
        const asked = months.get("2025-03");
        asked.onsuccess = () => {
          const kept = asked.result;
          kept.bytes[40] ^= 0x55;
          months.put(kept, "2025-03");
          months.transaction.oncomplete = () => (database.close(), done([...kept.bytes]));
        };
      });
    });
    await nursery.reload();
    await expect(nursery.notice("The day book of March 2025 was found damaged and set aside, just as it is: Settings offers it as a file.")).toBeVisible();
    expect(notesIn(await (await Files.open(page)).record())).toEqual(["in April"]);

    // The month is used again, and what was set aside is told no more.
    await note(page, "2025-03-08", "again in March");
    await nursery.go("./#/nursery");
    await nursery.reload();
    await closed(nursery, "2025-03");
    await expect(nursery.notice(/./)).toHaveCount(0);
    expect(notesIn(await (await Files.open(page)).record())).toEqual(["again in March", "in April"]);

    await nursery.place("Settings").click();
    const settings = new Settings(page);
    await expect(settings.asides).toHaveCount(1);
    await expect(settings.asides).toContainText("The day book of March 2025, 1 kB");
    const raw = { packed: true, bytes: Buffer.from(damaged).toString("base64") };
    const download = await settings.download(settings.asides.getByRole("button", { name: "Save as a file" }));
    expect(JSON.parse(await textOf(download))).toEqual(raw);
    const everything = await settings.download(page.getByRole("button", { name: "Save everything stored as a file" }));
    const parcel = JSON.parse(await textOf(everything));
    const [aside] = (await ask(page, "asides")).split(" ");
    expect(aside).toMatch(/^aside\.\d+\.2025-03$/);
    expect(Object.keys(parcel.closed).toSorted()).toEqual(["2025-03", "2025-04", aside].toSorted());
    expect(parcel.closed[aside]).toEqual(raw);
    expect(parcel.closed["2025-04"]).toContain("in April");
    expect(JSON.parse(parcel.closed["2025-03"])).toMatchObject({ longtom: "record", name: "2025-03" });

    await settings.asides.getByRole("button", { name: "Throw away" }).click();
    await settings.asides.getByRole("button", { name: "Throw away for good" }).click();
    await expect(settings.asides).toHaveCount(0);
    await settings.reload();
    await expect(settings.heading).toHaveText("Settings");
    await expect(settings.asides).toHaveCount(0);
    expect(await ask(page, "names")).toEqual(["2025-03", "2025-04"]);
  });

  for (const k of [1, 2]) {
    test(`stay where they are when write ${k} into the archive fails, and are closed at the next start`, async ({ page }) => {
      await page.addInitScript((k) => {
        let writes = 0;
        const write = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (...about) {
          writes += 1;
          if (writes === k && name !== "room") throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
          return write.apply(this, about);
        };
      }, k);
      const nursery = await Nursery.open(page);
      const months = ["2025-03", "2025-04"];
      for (const month of months) await note(page, `${month}-07`, `in ${month}`);
      await nursery.go("./#/nursery");
      await nursery.reload();
      await expect(nursery.notice(/could not be saved; what was saved before is still there\./)).toBeVisible();
      const failed = months[k - 1]!;
      await closed(nursery, months[2 - k]!);
      expect(await ask(page, "names")).not.toContain(failed);
      expect(JSON.stringify(await nursery.kept(`record.${failed}`))).toContain(`in ${failed}`);
      await page.evaluate(() => (name = "room"));
      await nursery.reload();
      for (const month of months) await closed(nursery, month);
      expect(notesIn(await (await Files.open(page)).record())).toEqual(months.map((month) => `in ${month}`));
    });
  }

  test("go along when the program has stopped and everything is saved as a file", async ({ page, guard }) => {
    guard.expects(/^not caught: /);
    const nursery = await Nursery.open(page);
    await note(page, "2025-03-07", "in March");
    await nursery.go("./#/nursery");
    await nursery.reload();
    await closed(nursery, "2025-03");
    await stop(new Shell(page));
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Save everything stored as a file" }).click(),
    ]);
    const parcel = JSON.parse(await textOf(download));
    expect(parcel.not_read).toEqual({});
    expect(Object.keys(parcel.closed)).toEqual(["2025-03"]);
    expect(parcel.closed["2025-03"]).toContain("in March");
  });
});

test.describe("without a place for closed months", () => {
  test.beforeEach(({ context }) => context.addInitScript(() => {
    Object.defineProperty(globalThis, "indexedDB", {
      get: () => {
        throw new DOMException("The operation is insecure.", "SecurityError");
      },
    });
  }));

  /** Another page of the same site takes so much of the room that so much is left. */
  const fill = (page: Page, left: number) => page.evaluate((left) => {
    localStorage.removeItem("other");
    const used = Object.entries(localStorage).reduce((units, [key, text]) => units + key.length + text.length, 0);
    localStorage.setItem("other", "x".repeat(5_242_880 - used - left - "other".length));
  }, left);

  test("everything works, what is left is said, and room can be made once there is a copy", async ({ page }) => {
    const nursery = await Nursery.open(page);
    await new Thing(page).add("house", { name: "North" });
    for (const day of ["2024-07-01", "2024-08-01", "2025-07-01"]) await note(page, day, `on ${day} ${"and more ".repeat(60)}`);
    await nursery.go("./#/nursery");
    const due = page.locator("#copy-due");
    await expect(due).toContainText(/There is room on this device for about 15,?000 more nights’ entries\./);
    await expect(due.getByRole("link", { name: "Make room" })).toHaveCount(0);
    await nursery.reload();
    await nursery.whole();
    await expect(nursery.notice(/./)).toHaveCount(0);

    await fill(page, 330 * 42);
    await nursery.reload();
    await nursery.whole();
    await expect(due).toContainText("There is room on this device for about 42 more nights’ entries.");
    // The last room is used up.
    await fill(page, 100);
    await note(page, "2025-07-02", "finds no room");
    await expect(nursery.notice("The day book of July 2025 could not be saved; what was saved before is still there. The room the browser gives this page is full. Export the record under “Bring in and take out”")).toBeVisible();
    await nursery.go("./#/nursery");
    await due.getByRole("link", { name: "Make room" }).click();
    const room = page.locator("#room");
    await expect(room).toContainText("about 0 more nights’ entries");
    await expect(room.getByRole("button")).toHaveCount(0);
    const record = await new Files(page).record();
    expect(notesIn(record)).toHaveLength(4);
    await room.getByRole("button", { name: "Take 2024 off this device" }).click();
    await room.getByRole("button", { name: "The file is safe: take 2024 off" }).click();
    await expect(room.getByRole("button", { name: /2024/ })).toHaveCount(0);
    await expect(room).not.toContainText("about 0 more");

    // What found no room is stored now; what was taken off is in the file, and comes back from there.
    await page.reload();
    const left = notesIn(await (await Files.open(page)).record());
    expect(left.map((words) => words.slice(0, 16))).toEqual(["finds no room", "on 2025-07-01 an"]);
    await page.evaluate(() => localStorage.removeItem("other"));
    const files = await Files.open(page);
    await files.choose("record.json", record);
    await files.found.getByRole("button", { name: "Take it in" }).click();
    await expect(files.found).toContainText("2 entries were taken in.");
    await page.reload();
    expect(notesIn(await (await Files.open(page)).record())).toEqual(notesIn(record));
  });
});
