// Storage that is refused, full, damaged, newer than the program, or shared by two pages: a
// sentence each time, and never a loss.
import type { Page } from "@playwright/test";
import { asShown, barkPerliteCoir, terminal } from "./figures";
import { everySize, expect, test } from "./fixture";
import { Mix, Settings, Shell, textOf } from "./pages";

/** CRC-32 of IEEE 802.3, clause 3.2.9, bit by bit. */
function crc32(text: string): string {
  let rest = 0xffffffff;
  for (const byte of Buffer.from(text)) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}

/** A document as it lies in the browser's storage. */
function sealed(kind: string, name: string, schema: number, turn: number, body: unknown): string {
  const text = `{"longtom":"${kind}","name":"${name}","schema":${schema},"turn":${turn},"body":${JSON.stringify(body)}`;
  return JSON.stringify(`${text},"check":"${crc32(text)}"}`);
}

const read = (page: Page, key: string) => page.evaluate((key) => localStorage.getItem(key), key);
const put = (page: Page, key: string, text: string) =>
  page.evaluate(([key, text]) => localStorage.setItem(key!, text!), [key, text]);

/** Opens Mix as from the home screen: with no question in the address. */
async function reopen(mix: Mix): Promise<void> {
  await mix.page.goto("about:blank");
  await mix.go("./#/mix");
}

/** Leaves two copies of the question of Mix: 4 parts of bark in the older, 5 in the newer. The
 * page is still open and has nothing more to save. */
async function twoCopies(page: Page): Promise<{ mix: Mix; newer: string; older: string }> {
  const mix = await Mix.open(page);
  for (const amount of ["4", "5"]) {
    await mix.amount(0).fill(amount);
    await mix.saved((question) => question["parts.0.amount"] === amount);
  }
  const turns = await page.evaluate(() =>
    ["a", "b"].map((slot) => JSON.parse(JSON.parse(localStorage.getItem(`longtom.question.mix.${slot}`)!)).turn));
  const [newer, older] = turns[0] > turns[1] ? ["a", "b"] : ["b", "a"];
  return { mix, newer: `longtom.question.mix.${newer}`, older: `longtom.question.mix.${older}` };
}

/** One letter of the material is another one. */
async function damage(page: Page, key: string): Promise<string> {
  const text = (await read(page, key))!;
  const damaged = text.replace("composted_bark", "composted_barm");
  expect(damaged).not.toBe(text);
  await put(page, key, damaged);
  return JSON.parse(damaged);
}

test.describe("storage refused", () => {
  test("is said, and everything works for this visit", everySize, async ({ page }) => {
    await page.addInitScript(() => {
      Object.defineProperty(globalThis, "localStorage", {
        get: () => {
          throw new DOMException("The operation is insecure.", "SecurityError");
        },
      });
    });
    const mix = await Mix.open(page);
    const notice = mix.notice(
      "The browser does not let this page store anything. Allow this site to store data in the browser's settings",
    );
    await expect(notice).toBeVisible();
    await expect(notice).toContainText("gone when the page is closed.");
    await mix.amount(0).fill("4");
    await mix.ranged();
    await notice.getByRole("button", { name: "I have read it" }).click();
    await expect(notice).toHaveCount(0);

    await mix.place("Settings").click();
    const settings = new Settings(page);
    await settings.choose("Light or dark", /^dark/);
    await expect(page.locator("html")).toHaveAttribute("data-scheme", "dark");
    await settings.place("Reckon").click();
    await page.getByRole("link", { name: /^Mix/ }).click();
    await expect(mix.amount(0)).toHaveValue("4");
    await expect(page.locator("p.notice")).toHaveCount(0);
    await mix.place("Settings").click();
    const download = await settings.download(page.getByRole("button", { name: "Save everything stored as a file" }));
    expect(await textOf(download)).toContain("longtom.question.mix.a");
  });
});

test.describe("storage full", () => {
  type Write = { stem: string; body: any };
  const recorded = (page: Page) => page.evaluate(() => (globalThis as any).writes as Write[]);

  /** Every write that is tried is noted; those from one number to another find no room. */
  async function faulty(page: Page, from: number, to: number): Promise<void> {
    await page.addInitScript(([from, to]) => {
      const writes: unknown[] = ((globalThis as any).writes = []);
      const write = Storage.prototype.setItem;
      Storage.prototype.setItem = function (key, text) {
        const [, stem] = /^longtom\.(.*)\.[ab]$/.exec(key) ?? [];
        writes.push({ stem, body: JSON.parse(JSON.parse(text)).body });
        // After the journey the page is loaded again under this name, and there is room.
        if (name !== "room" && writes.length >= from! && writes.length <= to!) {
          throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
        }
        write.call(this, key, text);
      };
    }, [from, to]);
  }

  /** The same course each time: after each step, one more write has been tried. */
  async function journey(page: Page): Promise<Write[]> {
    const mix = new Mix(page);
    const tried = (count: number) =>
      page.waitForFunction((count) => (globalThis as any).writes.length === count, count);
    await mix.go("./#/mix");
    await tried(1);
    await mix.amount(0).fill("4");
    await tried(2);
    await mix.choosePot("my own", /my own, round/);
    await tried(3);
    await mix.place("Settings").click();
    const settings = new Settings(page);
    await settings.choose("Size of text", "large");
    await tried(4);
    await settings.choose("Light or dark", /^dark/);
    await tried(5);
    await settings.place("Reckon").click();
    await page.getByRole("link", { name: /^Mix/ }).click();
    await expect(mix.amount(0)).toBeVisible();
    await tried(6);
    await mix.amount(0).fill("2 1/");
    await tried(7);
    return recorded(page);
  }
  const writes = 7;

  /** The last of these writes of each document. */
  const last = (made: Write[]) => Object.fromEntries(made.map(({ stem, body }) => [stem, body]));
  const onDevice = async (shell: Shell) => {
    const kept = { "question.mix": await shell.kept("question.mix"), settings: await shell.kept("settings") };
    return Object.fromEntries(Object.entries(kept).filter(([, body]) => body !== undefined));
  };

  test("never: each write of the journey is made", async ({ page }) => {
    await faulty(page, 0, 0);
    const made = await journey(page);
    expect(made).toHaveLength(writes);
    expect(await onDevice(new Shell(page))).toEqual(last(made));
    expect(last(made)["question.mix"].question["parts.0.amount"]).toBe("2 1/");
    expect(last(made).settings).toMatchObject({ text_size: "large", scheme: "dark" });
    await expect(page.locator("p.notice")).toHaveCount(0);
  });

  for (const [how, lasts] of [["once", false], ["from then on", true]] as const) {
    for (let k = 1; k <= writes; k += 1) {
      const size = k === 2 && lasts ? everySize : {};
      test(`${how} at write ${k}: a sentence, and what is stored is whole`, size, async ({ page }) => {
        await faulty(page, k, lasts ? writes : k);
        const tried = await journey(page);
        const shell = new Shell(page);
        const sentence = shell.notice(/could not be saved; what was saved before is still there\. The room the browser gives this page is full\./);
        await expect(sentence.first()).toBeVisible();
        const made = tried.filter((_, index) => (lasts ? index < k - 1 : index !== k - 1));
        expect(await onDevice(shell)).toEqual(last(made));

        // Loaded again with room: as it was before or after the write, and nothing between.
        await page.evaluate(() => (name = "room"));
        const mix = new Mix(page);
        await mix.reload();
        await expect(mix.parts.first()).toBeVisible();
        const asked = last(made)["question.mix"]?.question;
        await expect(mix.amount(0)).toHaveValue(asked?.["parts.0.amount"] ?? "3");
        await expect(mix.field("pot.size")).toContainText(asked?.["pot.size"] === "own_round" ? "my own, round" : "10 cm round");
        const { text_size: text, scheme } = { text_size: "normal", scheme: "auto", ...last(made).settings };
        expect(await page.locator("html").getAttribute("data-text")).toBe(text === "normal" ? null : text);
        expect(await page.locator("html").getAttribute("data-scheme")).toBe(scheme === "auto" ? null : scheme);
        await expect(shell.notice(/./)).toHaveCount(0);
      });
    }
  }
});

test.describe("a damaged copy", () => {
  test("is set aside for download, and the one before it is used", everySize, async ({ page }) => {
    const { mix, newer } = await twoCopies(page);
    const damaged = await damage(page, newer);
    await reopen(mix);
    await expect(mix.notice(
      "A damaged copy of the last question of the page “mix” was found and set aside, just as it is; it can be downloaded. What could be read is in use.",
    )).toBeVisible();
    await expect(mix.amount(0)).toHaveValue("4");
    await mix.ranged();
    await mix.place("Settings").click();
    const settings = new Settings(page);
    await expect(settings.asides).toHaveCount(1);
    const download = await settings.download(settings.asides.getByRole("button", { name: "Save as a file" }));
    expect(await textOf(download)).toBe(damaged);

    // Told once, and there until it is thrown away on purpose.
    await settings.reload();
    await expect(settings.asides).toHaveCount(1);
    await expect(page.locator("p.notice")).toHaveCount(0);
    await settings.asides.getByRole("button", { name: "Throw away" }).click();
    await settings.asides.getByRole("button", { name: "Throw away for good" }).click();
    await expect(settings.asides).toHaveCount(0);
    await settings.reload();
    await expect(settings.asides).toHaveCount(0);
  });

  test("and the other damaged too: the usual values, and both are set aside", async ({ page }) => {
    const { mix, newer, older } = await twoCopies(page);
    const damaged = [await damage(page, newer), await damage(page, older)];
    await reopen(mix);
    await expect(mix.notice("Nothing of it could be read, so the usual values are in use.").first()).toBeVisible();
    await expect(mix.amount(0)).toHaveValue("3");
    await mix.amount(0).fill("6");
    // In either place: in the other a damaged copy may still lie, whatever turn it says it is of.
    await expect.poll(async () => {
      const bodies = [await read(page, newer), await read(page, older)].map((text) => JSON.parse(JSON.parse(text!)).body);
      return bodies.map(({ question }) => question["parts.0.amount"]);
    }).toContain("6");
    await mix.place("Settings").click();
    const settings = new Settings(page);
    await expect(settings.asides).toHaveCount(2);
    const saved = [];
    for (const place of [0, 1]) {
      saved.push(await textOf(await settings.download(settings.asides.nth(place).getByRole("button", { name: "Save as a file" }))));
    }
    expect(saved.toSorted()).toEqual(damaged.toSorted());
    await page.goto("./#/mix");
    await expect(mix.amount(0)).toHaveValue("6");
  });

  test("with no room to set it aside is left where it is, and nothing is written over it", async ({ page }) => {
    const { mix, newer, older } = await twoCopies(page);
    const damaged = [await damage(page, newer), await damage(page, older)];
    await page.addInitScript(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
      };
    });
    await reopen(mix);
    await expect(mix.notice(/could not be set aside, so it is left where it is and nothing is saved over it\./).first()).toBeVisible();
    await mix.amount(0).fill("6");
    await expect(mix.notice(/is in the way and could not be set aside, so nothing was saved over it\./)).toBeVisible();
    await mix.ranged();
    expect([await read(page, newer), await read(page, older)].map((text) => JSON.parse(text!))).toEqual(damaged);
  });
});

test("a setting that is none has its usual value, and that is said", async ({ page }) => {
  const settings = await Settings.open(page);
  await put(page, "longtom.settings.a", sealed("settings", "", 1, 3, { decimal: "point", scheme: "purple", text_size: "large", units: {} }));
  await settings.reload();
  await expect(settings.notice("Part of the settings could not be understood and has its usual value: light or dark.")).toBeVisible();
  await expect(settings.choice("Light or dark", /^as the device/)).toBeChecked();
  await expect(settings.choice("Size of text", "large")).toBeChecked();
});

test("what a newer version has saved is left alone", async ({ page }) => {
  const { mix, newer, older } = await twoCopies(page);
  const theirs = sealed("question", "mix", 2, 99, { wholly: "different" });
  await put(page, older, theirs);
  const mine = await read(page, newer);
  await reopen(mix);
  await expect(mix.notice("This device has been used with a newer Longtom, which has saved the last question of the page “mix”.")).toBeVisible();
  // Meanwhile the newest copy that this version can read serves.
  await expect(mix.amount(0)).toHaveValue("5");
  await mix.amount(0).fill("6");
  await mix.ranged();
  await mix.place("Settings").click();
  const settings = new Settings(page);
  await expect(settings.asides).toHaveCount(1);
  await expect(settings.asides.getByRole("button", { name: "Throw away" })).toHaveCount(0);
  expect(await textOf(await settings.download(settings.asides.getByRole("button", { name: "Save as a file" })))).toBe(JSON.parse(theirs));
  expect([await read(page, older), await read(page, newer)]).toEqual([theirs, mine]);
});

test("two pages change settings in turn, and both have them all", async ({ page, context }) => {
  const one = await Settings.open(page);
  const two = await Settings.open(await context.newPage());
  const both = [one, two];
  await one.choose("Light or dark", /^dark/);
  for (const each of both) await expect(each.page.locator("html")).toHaveAttribute("data-scheme", "dark");
  await expect(two.choice("Light or dark", /^dark/)).toBeChecked();
  await two.choose("Size of text", "largest");
  await expect(one.choice("Size of text", "largest")).toBeChecked();
  await one.choose("Decimal mark", /^comma/);
  for (const each of both) {
    await expect(each.page.locator("html")).toHaveAttribute("data-text", "largest");
    await expect(each.choice("Decimal mark", /^comma/)).toBeChecked();
    await expect(each.choice("Light or dark", /^dark/)).toBeChecked();
    await expect(each.page.locator("p.notice")).toHaveCount(0);
  }
  await expect.poll(() => one.kept("settings")).toMatchObject({ decimal: "comma", scheme: "dark", text_size: "largest" });
});

test("two pages ask: the last question typed is the last question", async ({ page, context }) => {
  const one = await Mix.open(page);
  const two = await Mix.open(await context.newPage());
  await one.amount(0).fill("4");
  await one.saved((question) => question["parts.0.amount"] === "4");
  await two.amount(1).fill("2");
  await two.saved((question) => question["parts.1.amount"] === "2" && question["parts.0.amount"] === "3");
  await one.amount(0).fill("6");
  await one.saved((question) => question["parts.0.amount"] === "6");
  // Neither page is changed under the hand of whoever types in it.
  await expect(two.amount(0)).toHaveValue("3");
  for (const each of [one, two]) await expect(each.page.locator("p.notice")).toHaveCount(0);
});

test("units chosen are remembered, and so are those of the answer", async ({ page }) => {
  const settings = await Settings.open(page);
  await settings.choose("Volumes", /^imperial gallons/);
  await settings.choose("Weights", /^pounds/);
  const mix = await Mix.open(page);
  // The imperial gallon and the pound by definition: UK Units of Measurement Regulations 1995.
  const others: Record<string, [string, number]> = { L: ["gal", 1 / 4.54609], kg: ["lb", 1 / 0.45359237] };
  const expected = terminal(barkPerliteCoir({ size: "round_10_cm" })).figures.map(({ label, unit, low, best, high }) => {
    const [other, times] = others[unit] ?? [unit, 1];
    return [label, asShown({ name: "", label, unit: other, low: low * times, best: best * times, high: high * times })];
  });
  expect(await mix.figures()).toEqual(Object.fromEntries(expected));
  await mix.choosePot("my own", /my own, round/);
  await mix.unit("Height, inside").selectOption({ label: "in" });
  await mix.saved((question) => /in$/.test(question["pot.height"]));
  await mix.reload();
  await expect(mix.unit("Height, inside")).toHaveValue("in");
});

test("everything stored can be taken away as a file", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.amount(0).fill("4");
  await mix.saved((question) => question["parts.0.amount"] === "4");
  await mix.place("Settings").click();
  const settings = new Settings(page);
  await settings.choose("Size of text", "large");
  await expect.poll(() => settings.kept("settings")).toMatchObject({ text_size: "large" });
  const download = await settings.download(page.getByRole("button", { name: "Save everything stored as a file" }));
  expect(download.suggestedFilename()).toBe("longtom-everything.json");
  const parcel = JSON.parse(await textOf(download));
  const lies = await page.evaluate(() =>
    Object.fromEntries(Object.entries(localStorage).filter(([key]) => key.startsWith("longtom.")).map(([key, text]) => [key, JSON.parse(text)])));
  expect(parcel).toMatchObject({ longtom: "parcel", schema: 1, stored: lies, not_read: {} });
  expect(Object.keys(lies)).toContain("longtom.settings.a");
});
