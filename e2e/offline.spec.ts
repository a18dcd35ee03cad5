// Without a signal, and from one version to the next, as the one who stands there sees it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { barkPerliteCoir, asShown, terminal } from "./figures";
import { everySize, expect, test } from "./fixture";
import { Mix, Shell } from "./pages";
import type { Site } from "./site";

/** Opens the site and waits until the page says that it needs no signal any more. */
async function firstVisit(page: Page, site: Site): Promise<Mix> {
  const mix = new Mix(page);
  await mix.go(site.url);
  await expect(page.locator("[data-without]")).toHaveText(/^All of Longtom is on this device \(\d+ kB\)\./);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  return mix;
}

/** Does what a browser does by itself from time to time: looks for a new version. */
async function look(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
}

const edition = (page: Page) => page.locator("html").getAttribute("data-edition");

test.describe("without a signal", () => {
  test("it answers with ranges, after a reload too", everySize, async ({ page, context, site }) => {
    const mix = await firstVisit(page, site);
    await context.setOffline(true);
    await site.stop();
    await mix.reload();
    await page.getByRole("link", { name: /^Mix/ }).click();
    await mix.amount(0).fill("4");
    const question = barkPerliteCoir({ size: "round_10_cm" });
    question.parts[0]!.amount = "4";
    const expected = Object.fromEntries(terminal(question).figures.map((figure) => [figure.label, asShown(figure)]));
    expect(await mix.figures()).toEqual(expected);
    await mix.saved((kept) => kept["parts.0.amount"] === "4");
    await mix.reload();
    await expect(mix.amount(0)).toHaveValue("4");
    expect(await mix.figures()).toEqual(expected);
    for (const place of ["Look up", "Settings", "Reckon"]) {
      await mix.place(place).click();
      await expect(page).toHaveTitle(new RegExp(`^${place} `));
    }
  });

  test("it starts from a link, and from any address below it", async ({ page, context, site }) => {
    await firstVisit(page, site);
    await context.setOffline(true);
    await site.stop();
    const mix = new Mix(await context.newPage());
    await mix.go(`${site.url}#/mix?parts.0.material=white_peat&parts.0.amount=2&parts.0.bag=250%20L&pot.size=round_9_cm&pots=5&purpose=seed`);
    await mix.ranged();
    await expect(mix.material(0)).toContainText("white peat");
    await expect(mix.parts).toHaveCount(1);
    const shell = new Shell(await context.newPage());
    await shell.go(`${site.url}?from=home`);
    await expect(shell.heading).toHaveText("This morning");
  });

  test("the settings say how things stand", async ({ page, site }) => {
    const mix = await firstVisit(page, site);
    await mix.place("Settings").click();
    await expect(page.getByText(/^All of Longtom is on this device \(\d+ kB\)\./)).toBeVisible();
  });
});

test("what the device has cleared away is said, and fetched again when there is a signal", async ({ page, site, guard }) => {
  const mix = await firstVisit(page, site);
  const icon = "icons/pot-512.png";
  const content = readFileSync(join(site.dir, icon));
  // A browser short of room may drop some of the cache, or all of it, and keep the service worker.
  const clear = (end: string) => page.evaluate(async (end) => {
    const [name] = await caches.keys();
    const cache = await caches.open(name!);
    for (const request of await cache.keys()) if (request.url.endsWith(end)) await cache.delete(request);
  }, end);
  const told = page.locator("[data-without]");
  guard.newVersionComes();
  // The host does not have it any more.
  site.remove(icon);
  await clear(icon);
  await mix.reload();
  await expect(told).toHaveText(/^Part of Longtom has been cleared from this device\./);
  // It has it again.
  site.write(icon, content);
  await mix.reload();
  await expect(told).toHaveAttribute("data-without", "stored");
  // The page itself is gone: the service worker stands aside, and then fetches all of it.
  await clear("");
  await mix.reload();
  await expect(told).toHaveAttribute("data-without", "stored");
  await site.stop();
  await mix.reload();
  await expect(told).toHaveAttribute("data-without", "stored");
});

test.describe("a new version", () => {
  test("waits with a sentence, changes nothing until it is told, and keeps the question", everySize, async ({ page, site, guard }) => {
    const mix = await firstVisit(page, site);
    await page.getByRole("link", { name: /^Mix/ }).click();
    await mix.amount(0).fill("7");
    await mix.ranged();
    const answered = await mix.figures();
    const waiting = mix.notice("A new version of Longtom is ready on this device.");
    await expect(waiting).toHaveCount(0);

    guard.newVersionComes();
    site.publishNext();
    await look(page);
    await expect(waiting).toBeVisible();
    expect(await edition(page)).toBeNull();
    await expect(mix.amount(0)).toHaveValue("7");
    await mix.saved((kept) => kept["parts.0.amount"] === "7");

    // Loading the page again is not being told to.
    await mix.reload();
    expect(await edition(page)).toBeNull();
    await expect(waiting).toBeVisible();
    expect(await mix.figures()).toEqual(answered);

    // What is typed last is saved on the way over.
    await mix.amount(1).fill("2 1/");
    await waiting.getByRole("button", { name: "Change over" }).click();
    await expect(page.locator("html")).toHaveAttribute("data-edition", "next");
    await mix.opened();
    await expect(mix.amount(0)).toHaveValue("7");
    await expect(mix.amount(1)).toHaveValue("2 1/");
    await expect(waiting).toHaveCount(0);
    await mix.amount(1).fill("1");
    expect(await mix.figures()).toEqual(answered);
    await site.stop();
    await mix.reload();
    await expect(page.locator("html")).toHaveAttribute("data-edition", "next");
    await mix.ranged();
  });

  test("is taken over by all open pages at once, told from either", async ({ page, context, site, guard }) => {
    const first = await firstVisit(page, site);
    const second = new Mix(await context.newPage());
    await second.go(`${site.url}#/mix`);
    await second.amount(0).fill("6");
    await second.ranged();
    guard.newVersionComes();
    site.publishNext();
    await look(page);
    for (const each of [first, second]) {
      await expect(each.notice("A new version of Longtom is ready")).toBeVisible();
      expect(await edition(each.page)).toBeNull();
    }
    // Both are told, one right after the other; the second may be loading anew by then.
    await Promise.all([first, second].map(({ page }) =>
      page.evaluate(() => {
        const buttons = [...document.querySelectorAll<HTMLElement>(".notice button")];
        buttons.find((button) => button.textContent === "Change over")?.click();
      }).catch((gone: Error) => {
        if (!/context was destroyed|navigat/i.test(gone.message)) throw gone;
      })));
    for (const each of [first, second]) {
      await expect(each.page.locator("html")).toHaveAttribute("data-edition", "next");
      await each.opened();
    }
    await expect(second.amount(0)).toHaveValue("6");
    await second.ranged();
    expect(await page.evaluate(() => caches.keys())).toHaveLength(1);
  });

  test("never mixes with the old one: each page has all its parts from one of them", async ({ page, context, site, guard }) => {
    const versions = new Map<Page, Set<string>>();
    await context.exposeBinding("tellVersion", ({ page }, version: string) => {
      versions.set(page, (versions.get(page) ?? new Set()).add(version));
    });
    await context.addInitScript(() => {
      navigator.serviceWorker?.addEventListener("message", ({ data }) => {
        if (data?.kind === "stored") (globalThis as any).tellVersion(`${document.documentElement.dataset.edition ?? "first"} ${data.version}`);
      });
    });
    const mix = await firstVisit(page, site);
    guard.newVersionComes();
    site.publishNext();
    await look(page);
    await expect(mix.notice("A new version of Longtom is ready")).toBeVisible();
    // A page opened while the new one waits is of the old one, whatever the server now has.
    const later = new Mix(await context.newPage());
    await later.go(`${site.url}#/mix`);
    await later.ranged();
    expect(await edition(later.page)).toBeNull();
    await later.page.getByRole("button", { name: "Change over" }).click();
    for (const each of [mix, later]) {
      await expect(each.page.locator("html")).toHaveAttribute("data-edition", "next");
      await each.opened();
      await expect.poll(() => [...(versions.get(each.page) ?? [])].filter((version) => version.startsWith("next")).length).toBe(1);
      const seen = [...versions.get(each.page)!];
      const first = seen.filter((version) => version.startsWith("first"));
      expect(first.length, seen.join()).toBe(1);
      expect(new Set(seen.map((version) => version.split(" ")[1])).size, seen.join()).toBe(2);
    }
  });
});
