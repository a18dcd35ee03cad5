// `make bench`: how long Bed takes in the browser, unthrottled, from its question to the answer with its
// doubt, and the same question natively. Told, never asserted.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { chromium } from "@playwright/test";
import { args, executablePath } from "./chromium.mjs";
import { serveRelease } from "./release.mjs";

const rounds = 3;
const drawsAtADay = 8; // as the sweep counts a day of the flow solved in full
const top = fileURLToPath(new URL("..", import.meta.url));
const reckon = `${process.env.CARGO_TARGET_DIR ?? `${top}target`}/native/reckon`;

const pots = {
  "10 cm pot": { question: {}, address: "" },
  "8.5 L pot": {
    question: { pot: { size: "round_8_5_l" }, bench: { spacing: "350 mm" }, plant: { drinks: "1000 mL" } },
    address: "?pot.size=round_8_5_l&bench.spacing=350%20mm&plant.drinks=1000%20mL",
  },
};

/** Notes, in the page, when Bed's errand goes to the worker and what the worker says of it when. */
function noteErrands() {
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
      if (kind === 0 && name.includes("bed")) noted.push({ what: "asked", id, at: performance.now() });
      super.postMessage(data, ...given);
    }
  };
}

/** What one answer took, ms: all of it, its draws, and a day of the flow solved in full. */
async function answered(browser, address) {
  const context = await browser.newContext();
  await context.addInitScript(noteErrands);
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

function natively(question) {
  const begun = performance.now();
  execFileSync(reckon, ["bed"], { input: JSON.stringify(question) });
  return performance.now() - begun;
}

const { url, stop } = await serveRelease();
const browser = await chromium.launch({ executablePath, args });
for (const [name, { question, address }] of Object.entries(pots)) {
  const draws = 400;
  const took = [];
  for (let round = 0; round < rounds; round += 1) {
    const { asked, found, under } = await answered(browser, `${url}#/bed${address}`);
    const drawn = under.findLast(({ done }) => done <= draws) ?? asked;
    const last = under.at(-1);
    const days = (last.done - (drawn.done ?? 0)) / drawsAtADay;
    took.push({ all: found.at - asked.at, drawn: drawn.at - asked.at, days, day: (last.at - drawn.at) / days });
  }
  const best = took.toSorted((a, b) => a.all - b.all)[0];
  const native = Math.min(...Array.from({ length: rounds }, () => natively(question)));
  console.log(
    `Bed of a ${name} in the browser, unthrottled: all ${best.all.toFixed(0)} ms, of which ${draws} draws ${best.drawn.toFixed(0)} ms, ` +
      `then ${best.days.toFixed(0)} days of the flow solved in full, each ${best.day.toFixed(1)} ms with the turns between; ` +
      `natively ${native.toFixed(0)} ms, so ${(best.all / native).toFixed(2)} times as long in the browser (quickest of ${rounds})`,
  );
}
await browser.close();
await stop();
