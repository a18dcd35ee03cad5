// `make bench`: a record of ten seasons in a browser made four times slower: taking it in, opening
// the day book with it, and finding words. Told, never asserted.
import { chromium } from "@playwright/test";
import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { args, executablePath } from "./chromium.mjs";
import { serveRelease } from "./release.mjs";

const slower = 4;
const entries = 100_000;
const reckon = new URL("../target/native/reckon", import.meta.url).pathname;
const now = new Date("2030-01-02T08:00:00Z"); // just after the invented seasons

const file = join(mkdtempSync(join(tmpdir(), "longtom-bench-")), "record.json");
const text = execFileSync(reckon, ["record", "plausible", "--count", String(entries), "--seed", "1"], { maxBuffer: 1e9 });
writeFileSync(file, text);

const { url, stop } = await serveRelease();
const browser = await chromium.launch({ executablePath, args });
const context = await browser.newContext();
const page = await context.newPage();
await page.clock.setFixedTime(now);
await page.goto(`${url}#/bring-in`);
await page.locator("input[type=file]").setInputFiles(file);
const since = async (start, until) => {
  await until();
  return Date.now() - start;
};
let start = Date.now();
await page.getByRole("button", { name: "Take it in" }).click({ timeout: 120_000 });
await page.getByText(/entries were taken in/).waitFor({ timeout: 120_000 });
const takenIn = Date.now() - start;
const kept = () => page.evaluate(async () => {
  const months = await globalThis.longtomArchive.names();
  const shelf = Object.keys(localStorage).reduce((sum, key) => sum + key.length + localStorage.getItem(key).length, 0);
  return { months: months.length, shelf, quota: (await navigator.storage.estimate()).usage };
});
start = Date.now();
let was;
for (let now = await kept(); now.months < 120 && was !== JSON.stringify(now);) {
  was = JSON.stringify(now);
  await new Promise((resolve) => setTimeout(resolve, 5000));
  now = await kept();
}
const stored = await kept();
console.log(`${entries} entries, ${(text.length / 1e6).toFixed(1)} MB of JSON: taken in in ${takenIn} ms; ${stored.months} months in the archive after ${Date.now() - start} ms; on the shelf ${stored.shelf} characters of 5,242,880; all stored ${(stored.quota / 1e6).toFixed(1)} MB`);
await page.close();

// Opened several times: what else the machine does only makes it slower, so the quickest counts. The
// script's own time is hurt least by that.
async function opened(hash, there) {
  const again = await context.newPage();
  await again.clock.setFixedTime(now);
  const client = await context.newCDPSession(again);
  await client.send("Performance.enable");
  await client.send("Emulation.setCPUThrottlingRate", { rate: slower });
  const script = async () => {
    const { metrics } = await client.send("Performance.getMetrics");
    const ms = (name) => Math.round(metrics.find((metric) => metric.name === name).value * 1000);
    return { script: ms("ScriptDuration"), task: ms("TaskDuration") };
  };
  const start = Date.now();
  await again.goto(`${url}${hash}`);
  const usable = await since(start, () => again.locator(there).first().waitFor({ timeout: 60_000 }));
  const usableOf = await script();
  const whole = await since(start, () => again.waitForFunction(
    (there) => document.querySelector(there) && !/Earlier months are coming|Reading the record/.test(document.body.textContent),
    there, { timeout: 120_000 }));
  return { again, usable, usableOf, whole, wholeOf: await script(), script };
}
const rounds = Number(process.env.ROUNDS ?? 3);
const all = [];
for (let round = 0; round < rounds; round += 1) {
  const { again, usable, usableOf, whole, wholeOf } = await opened("#/day-book", ".houses button");
  // From the key to what is found being in the page, as the page's own clock has it.
  const finds = (words) => again.evaluate(async (words) => {
    const input = document.querySelector("#wanted-words");
    const told = () => document.querySelector("#found").textContent;
    const before = told();
    const start = performance.now();
    input.value = words;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    while (told() === before && performance.now() - start < 10_000) await new Promise((resolve) => setTimeout(resolve, 0));
    document.body.offsetHeight;
    return Math.round(performance.now() - start);
  }, words);
  await again.waitForTimeout(3000); // looked through by then
  const found = await finds("probe");
  await finds("no such words at all");
  const foundAgain = await finds("probe 1");
  await again.close();
  all.push({ usable, usableScript: usableOf.script, usableTask: usableOf.task, whole, wholeScript: wholeOf.script, found, foundAgain });
}
const quickest = (name) => Math.min(...all.map((one) => one[name]));
console.log(`${slower} times slower, the quickest of ${rounds}: day book usable after ${quickest("usable")} ms (of script ${quickest("usableScript")} ms, of all tasks ${quickest("usableTask")} ms), all of it read after ${quickest("whole")} ms (of script ${quickest("wholeScript")} ms), words found after ${quickest("found")} ms, others after ${quickest("foundAgain")} ms`);

// Once all is read, the nursery's own page is opened from the day book.
const pages = [];
for (let round = 0; round < rounds; round += 1) {
  const { again, script } = await opened("#/day-book", ".houses button");
  await again.waitForTimeout(8000);
  const before = await script();
  start = Date.now();
  await again.evaluate(() => (location.hash = "#/nursery"));
  const there = await since(start, () => again.locator("section.house").first().waitFor({ timeout: 60_000 }));
  pages.push({ there, script: (await script()).script - before.script });
  await again.close();
}
console.log(`${slower} times slower, the quickest of ${rounds}: from there to the nursery's page in ${Math.min(...pages.map(({ there }) => there))} ms (of script ${Math.min(...pages.map(({ script }) => script))} ms)`);
await browser.close();
await stop();
