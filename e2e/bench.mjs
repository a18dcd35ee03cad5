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

/** Notes, in the page itself, when the screen has taken the place of the static page, when the
 * first answer stood there and when its range did, and the longest task of the main thread. */
function noteTimes() {
  const times = (globalThis.times = { longest: 0 });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) times.longest = Math.max(times.longest, duration);
  }).observe({ type: "longtask", buffered: true });
  const note = (name, is) => {
    if (times[name] === undefined && is) times[name] = performance.now();
  };
  new MutationObserver(() => {
    if (!document.body) return;
    note("screen", !document.getElementById("opening"));
    note("answer", document.querySelector(".large"));
    note("range", /\d to \d/.test(document.querySelector(".limits")?.textContent));
  }).observe(document, { childList: true, subtree: true, characterData: true });
}

/** What was noted between asking for the page and the first answer with its range. */
async function start(page, go) {
  const client = await page.context().newCDPSession(page);
  await client.send("Emulation.setCPUThrottlingRate", { rate: slower });
  await go();
  await page.waitForFunction(() => globalThis.times.range !== undefined);
  return page.evaluate(() => ({
    painted: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
    ...globalThis.times,
  }));
}

/** For each key, milliseconds from its press to the frame that shows the answer, and to the
 * range; and the longest task of the main thread meanwhile. */
async function keys(page) {
  await page.evaluate(() => (globalThis.times.longest = 0));
  const field = page.locator("#field-parts-0-amount");
  await field.fill("");
  const pressed = [];
  for (const key of ["4", "Backspace", "5", "Backspace", "6", "Backspace", "2", ".", "7", "Backspace"]) {
    await field.focus();
    await page.evaluate(() => void (globalThis.noted = new Promise((resolve) => {
      let at;
      addEventListener("keydown", (event) => (at = event.timeStamp), { once: true, capture: true });
      addEventListener("input", () => requestAnimationFrame(() => setTimeout(() => {
        // The frame after the press has been drawn: what stands there now was in it.
        const point = performance.now() - at;
        if (document.querySelector(".desk[data-stale]")) return resolve(null);
        const ranged = () => /\d to \d/.test(document.querySelector(".limits").textContent);
        const done = () => resolve({ point, range: performance.now() - at });
        if (ranged()) return done();
        const observer = new MutationObserver(() => {
          if (!ranged()) return;
          observer.disconnect();
          done();
        });
        observer.observe(document.querySelector(".desk"), { childList: true, subtree: true, characterData: true });
      })), { once: true });
    })));
    await page.keyboard.press(key);
    const times = await page.evaluate(() => globalThis.noted);
    if (times) pressed.push(times);
  }
  return { pressed, longest: await page.evaluate(() => globalThis.times.longest) };
}

async function measured(url, browser) {
  const starts = { cold: [], offline: [] };
  const typed = [];
  for (let round = 0; round < rounds; round += 1) {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
    await context.addInitScript(noteTimes);
    const page = await context.newPage();
    starts.cold.push(await start(page, () => page.goto(`${url}#/mix`)));
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
    await context.setOffline(true);
    starts.offline.push(await start(page, () => page.reload()));
    typed.push(await keys(page));
    await context.close();
  }
  return { starts, typed };
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
const { starts, typed } = await measured(url, browser);
await browser.close();
const of = (list, name) => `${median(list.map((each) => each[name])).toFixed(0)} ms`;
const most = (list, name) => `${Math.max(...list.map((each) => each[name])).toFixed(0)} ms`;
for (const [what, list] of Object.entries(starts)) {
  const told = ["painted", "screen", "answer", "range"].map((name) => `${name} ${of(list, name)}`);
  console.log(`${what} start, ${slower} times slower: ${told.join(", ")}, longest task ${of(list, "longest")} (median of ${rounds})`);
}
const pressed = typed.flatMap((each) => each.pressed);
console.log(`key press, ${slower} times slower: answer drawn ${of(pressed, "point")} (at most ${most(pressed, "point")}), range ${of(pressed, "range")} (at most ${most(pressed, "range")}), longest task ${most(typed, "longest")} (median of ${pressed.length})`);

const reports = await scores(url);
for (const category of ["performance", "accessibility", "best-practices"]) {
  const each = reports.map((lhr) => Math.round(lhr.categories[category].score * 100));
  console.log(`Lighthouse, mobile, ${category}: ${median(each)} (${each.join(", ")})`);
}
for (const { title, id } of Object.values(reports[0].audits).filter((audit) => audit.score === 0)) {
  console.log(`  not met: ${title} (${id})`);
}
await stop();
