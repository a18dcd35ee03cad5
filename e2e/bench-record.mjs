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

const again = await context.newPage();
await again.clock.setFixedTime(now);
const client = await context.newCDPSession(again);
await client.send("Emulation.setCPUThrottlingRate", { rate: slower });
start = Date.now();
await again.goto(`${url}#/day-book`);
const usable = await since(start, () => again.locator(".houses button").first().waitFor({ timeout: 60_000 }));
const whole = await since(start, () => again.waitForFunction(
  () => document.querySelector(".houses button") && !/Earlier months are coming|Reading the record/.test(document.body.textContent),
  undefined, { timeout: 120_000 }));
start = Date.now();
await again.getByLabel("Find words").fill("probe");
const found = await since(start, () => again.getByText(/\d+ found\.|Nothing found\./).first().waitFor({ timeout: 60_000 }));
console.log(`${slower} times slower: day book usable after ${usable} ms, all of it read after ${whole} ms, words found after ${found} ms`);
await browser.close();
await stop();
