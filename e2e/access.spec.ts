// Whoever reads by ear, by keyboard, in full sun, with large text or with cold hands: every page
// in every state, held against WCAG 2.2 by axe-core, and measured where axe does not.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "@playwright/test";
import { DayBook, dayAfter, night, nursery } from "./day-book-pages";
import { expect, test } from "./fixture";
import { Files, Nursery, Thing } from "./nursery-pages";
import { Mix, Settings, Shell, stop, textOf } from "./pages";
import { Rinse } from "./rinse-pages";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Every page in every state that looks otherwise. */
const states: Record<string, (page: Page) => Promise<unknown>> = {
  "the start": (page) => new Shell(page).storedHere(),
  "Mix": async (page) => (await Mix.open(page)).ranged(),
  "Rinse": async (page) => (await Rinse.open(page)).ranged(),
  "Mix with the list of materials open": async (page) => {
    const mix = await Mix.open(page);
    await mix.ranged();
    await mix.material(0).click();
    await mix.sheet.search.fill("per");
    await expect(mix.sheet.item(/./).first()).toBeVisible();
  },
  "Mix with a list where nothing is found": async (page) => {
    const mix = await Mix.open(page);
    await mix.field("pot.size").click();
    await mix.sheet.search.fill("moon");
    await expect(mix.sheet.root).toContainText("Nothing has that in its name.");
  },
  "Mix with sentences at its fields": async (page) => {
    const mix = await Mix.open(page);
    await mix.ranged();
    await mix.amount(0).fill("1,250");
    await mix.field("pots").fill("");
    await mix.chooseMaterial(1, "bark", /composted bark/);
    await expect(mix.lastGood).toBeVisible();
  },
  "Mix with a question of which none was good yet": async (page) => {
    const mix = await Mix.open(page, "parts.0.material=&parts.0.amount=x&pots=0");
    await expect(mix.answer).toContainText("Put the question right");
    await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  },
  "Mix with everything opened, in a pot of one's own": async (page) => {
    const mix = await Mix.open(page);
    await mix.choosePot("my own", /my own, round/);
    await mix.ranged();
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Recipe with everything opened": async (page) => {
    const recipe = new Mix(page);
    await recipe.go("./#/recipe");
    await expect(recipe.judgement).not.toContainText("A first look");
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Bed with everything opened": async (page) => {
    const bed = new Mix(page);
    await bed.go("./#/bed");
    await expect(page.getByLabel("Hour of the day")).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Bed with a sentence at a field": async (page) => {
    const bed = new Mix(page);
    await bed.go("./#/bed");
    await bed.field("tray.level").fill("0");
    await expect(bed.lastGood).toBeVisible();
  },
  "Root zone with everything opened": async (page) => {
    const root = new Mix(page);
    await root.go("./#/root-zone");
    await expect(page.getByRole("heading", { name: "Through the year" })).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Root zone with a sentence at a field": async (page) => {
    const root = new Mix(page);
    await root.go("./#/root-zone");
    await root.field("air.low").fill("30");
    await expect(root.lastGood).toBeVisible();
  },
  "Season with everything opened": async (page) => {
    const season = new Mix(page);
    await season.go("./#/season");
    await expect(page.getByRole("heading", { name: "What to buy" })).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "this morning in the demo nursery, and Season with all of its record": async (page) => {
    await Nursery.demo(page);
    const season = new Mix(page);
    await season.place("Reckon").click();
    await expect(page.locator("#this-morning .due").first()).toBeVisible();
    for (const summary of await page.locator("#this-morning summary:visible").all()) await summary.click();
    await page.locator("#page").getByRole("link", { name: /^Season/ }).click();
    await page.getByRole("button", { name: "Take it all from the record" }).click();
    await expect(page.getByRole("table", { name: /8 batches of 10/ })).toBeVisible({ timeout: 30_000 });
    await season.place("Reckon").click();
    await expect(page.locator("#this-morning .due").first()).toBeVisible();
  },
  "Season with what is sown already": async (page) => {
    const season = new Mix(page);
    await season.go("./#/season?batches.0.crop=sweet_basil&batches.0.number=200&batches.0.sown=2027-03-01&batches.0.up=2027-03-08&batches.0.potted=2027-03-24&batches.0.pot=round_9_cm&batches.0.spacing=110%20mm&batches.0.first=1&batches.0.then=2");
    await expect(page.getByRole("table", { name: /8 batches of 10/ })).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Moving on with everything opened": async (page) => {
    const moving = new Mix(page);
    await moving.go("./#/moving-on");
    await expect(page.getByRole("heading", { name: "Why that day" })).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Moving on with a batch of the record, and what is asked of its move": async (page) => {
    await Nursery.demo(page);
    const moving = new Mix(page);
    await moving.go("./#/moving-on");
    await page.getByRole("button", { name: "Small cucumbers 2" }).click();
    await expect(page.getByRole("heading", { name: "Why that day" })).toBeVisible({ timeout: 30_000 });
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "Moving on with a sentence at a field": async (page) => {
    const moving = new Mix(page);
    await moving.go("./#/moving-on");
    await moving.field("seen.leaves").fill("400");
    await expect(moving.lastGood).toBeVisible();
  },
  "Season with a sentence at a field": async (page) => {
    const season = new Mix(page);
    await season.go("./#/season");
    await season.field("sowings.0.wanted").fill("0");
    await expect(season.lastGood).toBeVisible();
  },
  "Recipe with a sentence at a field": async (page) => {
    const recipe = new Mix(page);
    await recipe.go("./#/recipe");
    await recipe.field("depth").fill("0");
    await expect(recipe.lastGood).toBeVisible();
  },
  "Mixes side by side": async (page) => {
    const mix = await Mix.open(page);
    await mix.ranged();
    await page.getByRole("button", { name: "Set beside others" }).click();
    await expect(page.locator(".card")).toHaveCount(1);
    await expect(page.locator(".figures small").first()).toHaveText(/\d to \d/);
  },
  "nothing side by side": (page) => new Shell(page).go("./#/side-by-side"),
  "Mix, far down": async (page) => {
    const mix = await Mix.open(page);
    await mix.ranged();
    await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  },
  "Mix from a link, in place of the last question": async (page) => {
    const mix = await Mix.open(page);
    await mix.amount(0).fill("4");
    await mix.saved((question) => question["parts.0.amount"] === "4");
    await page.goto("about:blank");
    await mix.go("./#/mix?parts.0.material=coir_pith&parts.0.amount=1&parts.0.bag=70%20L&pot.size=round_9_cm&pots=1&purpose=seed");
    await expect(page.getByRole("button", { name: "Bring mine back" })).toBeVisible();
  },
  "Look up": async (page) => new Shell(page).go("./#/look-up"),
  "Settings": async (page) => Settings.open(page),
  "Settings with something set aside": async (page) => {
    const settings = await Settings.open(page);
    await page.evaluate(() => localStorage.setItem("longtom.settings.a", "damaged"));
    await settings.reload();
    await expect(settings.asides).toHaveCount(1);
    await settings.asides.getByRole("button", { name: "Throw away" }).click();
    await expect(settings.notice("A damaged copy of the settings")).toBeVisible();
  },
  "the day book without a house": (page) => DayBook.open(page),
  "the day book with a plot, a form and something to undo": async (page) => {
    const today = new Date().toISOString().slice(0, 10);
    const nights = [3, 2, 1].map((ago) => night(dayAfter(today, -ago), String(ago - 2), String(20 + ago)));
    const book = await DayBook.open(page, [...nursery, ...nights]);
    await book.field("line").fill("6/31");
    await book.save.click();
    await expect(book.undo).toBeVisible();
    await book.act("Watered").click();
    for (const summary of await page.locator("summary:visible").all()) await summary.click();
  },
  "the day book with sentences at its fields": async (page) => {
    const book = await DayBook.open(page, nursery);
    await book.field("line").fill("31/6");
    await book.save.click();
    await expect(book.sentence("low")).toBeVisible();
    await page.getByLabel("Find words").fill("moon");
    await expect(page.locator("#entered")).toContainText("Nothing of the kind was entered.");
  },
  "the nursery with nothing in it": async (page) => Nursery.open(page),
  "the demo nursery": async (page) => Nursery.demo(page),
  "a batch of the demo nursery with its story open": async (page) => {
    const nursery = await Nursery.demo(page);
    await nursery.bay("West bench").getByRole("link", { name: /^Chives 2/ }).click();
    await new Thing(page).story.locator("summary").click();
  },
  "a thing with sentences at its fields": async (page) => {
    const thing = new Thing(page);
    await thing.go("./#/thing?new=bay");
    await thing.save.click();
    await expect(thing.sentence("name")).toBeVisible();
  },
  "a mix of the record with rows": async (page) => {
    const thing = new Thing(page);
    await thing.go("./#/thing?new=mix");
    await page.getByRole("button", { name: "Add a row" }).click();
    await expect(page.locator(".part")).toHaveCount(1);
  },
  "bringing in a thermometer's file": async (page) => {
    await Nursery.demo(page);
    await page.getByRole("link", { name: "Bring in or take out a file" }).click();
    const files = new Files(page);
    await files.choose("a.csv", "Day;Time;Temp\n3.5.2026;01:00;5,5\n3.5.2026;07:00;6,5\n3.5.2026;09:00;9,5\n3.5.2026;13:00;19,5\n3.5.2026;x;7\n");
    await files.found.getByText(/left out/).click();
  },
};

type Finding = { id: string; help: string; nodes: { target: string[]; failureSummary: string }[] };

/** What axe finds, as lines. */
async function found(page: Page): Promise<string[]> {
  // Put in past the page's policy, as a tool of the browser, not as a script of the page.
  await page.evaluate(axe);
  const violations = await page.evaluate(async (): Promise<Finding[]> => {
    const { axe } = globalThis as any;
    const { violations } = await axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } },
    });
    return violations;
  });
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help}: ${target.join(" ")}: ${failureSummary}`));
}

/** What can be touched and is less than 48 px high. */
function small(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const least = 48;
    const found = [];
    for (const element of document.querySelectorAll<HTMLElement>("a[href], button, input, select, summary")) {
      if (!element.checkVisibility({ visibilityProperty: true })) continue;
      // A round button is touched by its label and with it.
      const touched = element instanceof HTMLInputElement && element.type === "radio" ? element.labels![0]! : element;
      const { height } = touched.getBoundingClientRect();
      // Half a pixel for what zoom and text size leave over.
      if (height < least - 0.5) found.push(`${element.outerHTML.slice(0, 90)}: ${height.toFixed(1)} px high`);
    }
    return found;
  });
}

/** What sticks out of the page sideways. */
function sidewise(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const wide = [...document.querySelectorAll("body *")]
      .filter((element) => element.getBoundingClientRect().right > clientWidth + 0.5 && !element.closest(".wide"))
      .map((element) => element.outerHTML.slice(0, 90));
    return [`${scrollWidth} px in ${clientWidth} px`, ...wide];
  });
}

const sizes: [number, number][] = [[390, 844], [390, 500], [820, 1180], [1180, 820]];

for (const [what, open] of Object.entries(states)) {
  test(`${what}: axe finds nothing, in light and in dark`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
    await open(page);
    expect(await found(page), "in light").toEqual([]);
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await found(page), "in dark").toEqual([]);
    // Where two columns stand side by side.
    await page.setViewportSize({ width: 1180, height: 820 });
    expect(await found(page), "in dark, wide").toEqual([]);
  });

  test(`${what}: fits every width and text size, with targets of 48 px`, async ({ page }) => {
    await open(page);
    for (const text of [null, "large", "largest"]) {
      await page.evaluate((text) => {
        if (text) document.documentElement.dataset.text = text;
        else delete document.documentElement.dataset.text;
      }, text);
      for (const [width, height] of sizes) {
        await page.setViewportSize({ width, height });
        const at = `${width} x ${height}, text ${text ?? "normal"}`;
        expect(await sidewise(page), at).toEqual([]);
        expect(await small(page), at).toEqual([]);
      }
    }
  });
}

test("the schemes chosen in the settings are those axe has seen", async ({ page }) => {
  const settings = await Settings.open(page);
  for (const [chosen, device] of [["dark", "light"], ["light", "dark"]] as const) {
    await page.emulateMedia({ colorScheme: device });
    await settings.choose("Light or dark", new RegExp(`^${chosen}`));
    await expect(page.locator("html")).toHaveAttribute("data-scheme", chosen);
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    await settings.choose("Light or dark", /^as the device/);
    await page.emulateMedia({ colorScheme: chosen });
    await expect(page.locator("body")).toHaveCSS("background-color", ground);
    expect(await found(page), chosen).toEqual([]);
  }
});

test("with forced colours and without motion it is all there", async ({ page }) => {
  await page.emulateMedia({ forcedColors: "active", reducedMotion: "reduce" });
  const mix = await Mix.open(page);
  await mix.ranged();
  await expect(mix.answer.locator(".verdict svg")).toBeVisible();
  await expect(mix.answer.locator(".drawing svg")).toBeVisible();
  expect(await sidewise(page)).toEqual([]);
});

test("on a small screen with the keyboard open, the field that is typed in is in sight", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 500 });
  const mix = await Mix.open(page);
  for (const field of [mix.amount(0), mix.amount(2), mix.field("pots")]) {
    await field.focus();
    await expect(field).toBeInViewport({ ratio: 1 });
    // Nothing pinned to the edge of the screen lies over it.
    expect(await field.evaluate((element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      return [0.1, 0.5, 0.9].map((share) => document.elementFromPoint(left + width / 2, top + height * share) === element);
    })).toEqual([true, true, true]);
    await expect(page.locator(".places")).toBeHidden();
  }
});

test.describe("when the program stops", () => {
  test("a page says so, offers what is stored, and opens again", async ({ page, guard }) => {
    guard.expects(/^not caught: /);
    const mix = await Mix.open(page);
    await mix.amount(0).fill("4 1/2");
    await mix.saved((question) => question["parts.0.amount"] === "4 1/2");
    const lies = await page.evaluate(() => Object.fromEntries(Object.entries(localStorage)));
    await stop(mix);
    await expect(page.locator("main")).toContainText("What you had entered is stored on this device.");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Save everything stored as a file" }).click(),
    ]);
    const parcel = JSON.parse(await textOf(download));
    for (const [key, text] of Object.entries(lies)) expect(parcel.stored[key]).toBe(JSON.parse(text));
    expect(JSON.stringify(parcel.stored)).toContain("4 1/2");
    await page.getByText("For whoever mends it").click();
    await expect(page.locator("pre")).toHaveText(/\w/);
    await page.getByRole("link", { name: "Open Longtom again" }).click();
    await expect(mix.heading).not.toHaveText("Longtom has stopped.");
    await mix.go("./#/mix");
    await expect(mix.amount(0)).toHaveValue("4 1/2");
  });

  test("that page too is one that axe finds nothing on, and fits", async ({ page, guard }) => {
    guard.expects(/^not caught: /);
    const shell = new Shell(page);
    await shell.go("./");
    await stop(shell);
    await page.locator("summary").click();
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await found(page), colorScheme).toEqual([]);
    }
    for (const [width, height] of sizes) {
      await page.setViewportSize({ width, height });
      expect([...(await sidewise(page)), ...(await small(page))], `${width} x ${height}`).toEqual([]);
    }
  });
});
