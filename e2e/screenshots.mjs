// `make screenshots`: the pictures that the web manifest and README show, taken from the
// release. Each is a page at a size and in a scheme, some of the demo nursery; add a line for another.
import { mkdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { chromium } from "@playwright/test";
import { args, executablePath } from "./chromium.mjs";
import { serveRelease } from "./release.mjs";

const folder = fileURLToPath(new URL("../public/screenshots/", import.meta.url));

// A phone held upright and a tablet held sideways, in CSS pixels, drawn at this density.
const narrow = { width: 390, height: 844, density: 2 };
const wide = { width: 1180, height: 820, density: 1 };

// A batch that is looked at in May, whatever the day on which the pictures are taken.
const chillies = "#/moving-on?crop=chilli_annuum&move=cold_house&today=2027-05-24&since=2027-04-10&from=moved&pot=round_9_cm&plants=60&climate=east_anglia&place.night=4%20degC&seen.ball=4&seen.circling=1&seen.tips=white&seen.leaves=9&seen.flower=bud&seen.pests=none&seen.hardened=2%20day";

const pictures = [
  { name: "mix-narrow.png", address: "#/mix", size: narrow, scheme: "light" },
  { name: "mix-wide.png", address: "#/mix", size: wide, scheme: "light" },
  { name: "bed-wide.png", address: "#/bed", size: wide, scheme: "light", there: "#bed-hour" },
  { name: "season-wide.png", address: "#/season", size: wide, scheme: "light", there: "#drawn svg" },
  { name: "root-zone-wide.png", address: "#/root-zone", size: wide, scheme: "light", there: "#drawn svg" },
  { name: "moving-on-wide.png", address: chillies, size: wide, scheme: "light", there: "#drawn svg" },
  { name: "this-morning-wide.png", address: "#/", size: wide, scheme: "light", there: "#this-morning .due", demo: true },
  { name: "nursery-wide.png", address: "#/nursery", size: wide, scheme: "light", there: "#plan .house", demo: true },
];

await mkdir(folder, { recursive: true });
const { url, stop } = await serveRelease();
const browser = await chromium.launch({ executablePath, args });
for (const { name, address, size, scheme, there, demo } of pictures) {
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    deviceScaleFactor: size.density,
    colorScheme: scheme,
    hasTouch: true,
    locale: "en-GB",
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  if (demo) {
    await page.goto(url + "#/nursery");
    await page.getByRole("button", { name: "Show the demo nursery" }).click();
    await page.locator("#plan .house").first().waitFor();
  }
  await page.goto(url + address);
  await page.locator("#opening").waitFor({ state: "detached" });
  // Ranges come from the worker a moment after the figures: not every headline has limits, but each
  // says while its range is being found. The start says when all is stored.
  await page.locator(there ?? "[data-without=stored], .limits:text-matches('\\\\d to \\\\d')").first().waitFor();
  await page.getByText("finding its range").waitFor({ state: "hidden" });
  await page.screenshot({ path: folder + name });
  console.log(`${name}: ${size.width * size.density} x ${size.height * size.density}`);
  await context.close();
}
await browser.close();
await stop();
