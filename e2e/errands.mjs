// How long a reckoning takes in the browser, unthrottled, from its question to the answer with its doubt, and the
// same question natively.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { chromium } from "@playwright/test";
import { args, executablePath } from "./chromium.mjs";
import { serveRelease } from "./release.mjs";

const top = fileURLToPath(new URL("..", import.meta.url));
const reckon = `${process.env.CARGO_TARGET_DIR ?? `${top}target`}/native/reckon`;

/** Notes, in the page, when the errand of a reckoning goes to the worker and what the worker says of it when. */
function noteErrands(reckoning) {
  const noted = (globalThis.noted = []);
  const numbers = (bytes) => {
    const read = [];
    for (let at = 0; at < bytes.length && read.length < 4; ) {
      let [value, times] = [0, 1];
      for (let more = true; more && at < bytes.length; at += 1) {
        value += (bytes[at] & 127) * times;
        times *= 128;
        more = bytes[at] > 127;
      }
      read.push(value);
    }
    return read;
  };
  const Own = globalThis.Worker;
  globalThis.Worker = class extends Own {
    constructor(...given) {
      super(...given);
      this.addEventListener("message", ({ data }) => {
        const [kind, id, done] = numbers(data);
        if (kind === 1) noted.push({ what: "under", id, done, at: performance.now() });
        if (kind === 2) noted.push({ what: "found", id, at: performance.now() });
      });
    }
    postMessage(data, ...given) {
      const [kind, id] = numbers(data);
      const name = String.fromCharCode(...data.slice(0, 16));
      if (kind === 0 && name.includes(reckoning)) noted.push({ what: "asked", id, at: performance.now() });
      super.postMessage(data, ...given);
    }
  };
}

/** When one answer was asked for and found, and what the worker said between, ms. */
async function answered(browser, address, reckoning) {
  const context = await browser.newContext();
  await context.addInitScript(noteErrands, reckoning);
  const page = await context.newPage();
  await page.goto(address);
  await page.waitForFunction(() => {
    const asked = globalThis.noted.findLast(({ what }) => what === "asked");
    return asked && globalThis.noted.some(({ what, id }) => what === "found" && id === asked.id);
  });
  const all = await page.evaluate(() => globalThis.noted);
  await context.close();
  const asked = all.findLast(({ what }) => what === "asked");
  const found = all.find(({ what, id }) => what === "found" && id === asked.id);
  const under = all.filter(({ what, id }) => what === "under" && id === asked.id);
  return { asked, found, under };
}

function natively(reckoning, question) {
  const begun = performance.now();
  execFileSync(reckon, [reckoning], { input: JSON.stringify(question) });
  return performance.now() - begun;
}

/**
 * Cases of a reckoning, each so many rounds: all of it, its first so many steps, and what is left. Hands the quickest
 * round and the quickest natively to whoever tells them.
 */
export async function timed({ reckoning, page, cases, first, rounds, tell }) {
  const { url, stop } = await serveRelease();
  const browser = await chromium.launch({ executablePath, args });
  for (const [name, { question, address }] of Object.entries(cases)) {
    const took = [];
    for (let round = 0; round < rounds; round += 1) {
      const { asked, found, under } = await answered(browser, `${url}#/${page}${address}`, reckoning);
      const drawn = under.findLast(({ done }) => done <= first) ?? asked;
      const last = under.at(-1);
      const steps = last.done - (drawn.done ?? 0);
      const from = (at) => at - asked.at;
      took.push({ all: from(found.at), drawn: from(drawn.at), of: drawn.done ?? 0, steps, rest: last.at - drawn.at });
    }
    const best = took.toSorted((a, b) => a.all - b.all)[0];
    const native = Math.min(...Array.from({ length: rounds }, () => natively(reckoning, question)));
    console.log(tell(name, best, native));
  }
  await browser.close();
  await stop();
}
