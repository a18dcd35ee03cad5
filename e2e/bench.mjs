// `make bench`: timings of the release in a browser made four times slower. Told, never
// asserted: they depend on the machine and on what else it is doing.
import { chromium } from "@playwright/test";
import lighthouse from "lighthouse";
import { args, executablePath } from "./chromium.mjs";
import { serveRelease } from "./release.mjs";

const slower = 4; // times; about what a tablet in the middle of its range is to a desk machine
const rounds = 5;
const debuggingPort = 9333; // any that is free

const median = (numbers) => numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)];

/** Milliseconds from asking for the page until the first thing painted, and until the
 * screen has taken the place of the static page. */
async function start(page, go) {
  const client = await page.context().newCDPSession(page);
  await client.send("Emulation.setCPUThrottlingRate", { rate: slower });
  await go();
  await page.waitForFunction(() => document.documentElement.dataset.opened !== undefined);
  return page.evaluate(() => ({
    painted: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
    ready: Number(document.documentElement.dataset.opened),
  }));
}

async function startsOf(url, browser) {
  const cold = [];
  const offline = [];
  for (let round = 0; round < rounds; round += 1) {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    await context.addInitScript(() => {
      new MutationObserver((_, observer) => {
        if (!document.body || document.getElementById("opening")) return;
        observer.disconnect();
        document.documentElement.dataset.opened = String(performance.now());
      }).observe(document, { childList: true, subtree: true });
    });
    const page = await context.newPage();
    cold.push(await start(page, () => page.goto(url)));
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
    await context.setOffline(true);
    offline.push(await start(page, () => page.reload()));
    await context.close();
  }
  return { cold, offline };
}

async function scores(url) {
  const all = [];
  for (let round = 0; round < rounds; round += 1) {
    // A browser of its own each time: nothing is stored yet, as on a first visit.
    const browser = await chromium.launch({
      executablePath,
      args: [...args, `--remote-debugging-port=${debuggingPort}`],
    });
    const { lhr } = await lighthouse(url, {
      port: debuggingPort,
      onlyCategories: ["performance", "accessibility", "best-practices"],
      logLevel: "error",
    });
    all.push(lhr);
    await browser.close();
  }
  return all;
}

const { url, stop } = await serveRelease();

const browser = await chromium.launch({ executablePath, args });
const starts = await startsOf(url, browser);
await browser.close();
for (const [what, list] of Object.entries(starts)) {
  const painted = median(list.map((each) => each.painted));
  const ready = median(list.map((each) => each.ready));
  console.log(`${what} start, ${slower} times slower: painted ${painted.toFixed(0)} ms, screen ready ${ready.toFixed(0)} ms (median of ${rounds})`);
}

const reports = await scores(url);
for (const category of ["performance", "accessibility", "best-practices"]) {
  const each = reports.map((lhr) => Math.round(lhr.categories[category].score * 100));
  console.log(`Lighthouse, mobile, ${category}: ${median(each)} (${each.join(", ")})`);
}
for (const { title, id } of Object.values(reports[0].audits).filter((audit) => audit.score === 0)) {
  console.log(`  not met: ${title} (${id})`);
}
await stop();
