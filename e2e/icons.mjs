// `make icons`: the PNG icons, drawn by the browser from the one drawing.
import { readFile, writeFile } from "node:fs/promises";
import { chromium } from "@playwright/test";
import { args, executablePath } from "./chromium.mjs";

const folder = new URL("../public/icons/", import.meta.url);
const drawing = await readFile(new URL("pot.svg", folder), "utf8");

// A maskable icon may be cut to a circle of 80 % of its width (W3C Manifest, "maskable"
// purpose), so its ground goes to the edge and the pot is drawn smaller: its corners lie
// 0.45 of the width from the middle, and at 0.8 they are at 0.36, inside the 0.40.
const toTheEdge = drawing.replace('rx="96" ', "");
const maskable = toTheEdge.replace('<g id="pot">', '<g transform="translate(51.2 51.2) scale(0.8)">');

const icons = [
  ["pot-192.png", 192, drawing],
  ["pot-512.png", 512, drawing],
  ["pot-maskable-192.png", 192, maskable],
  ["pot-maskable-512.png", 512, maskable],
  // The one a tablet's home screen takes; it rounds the corners itself.
  ["pot-180.png", 180, toTheEdge],
];

const browser = await chromium.launch({ executablePath, args });
const page = await browser.newPage();
for (const [name, size, svg] of icons) {
  await page.setViewportSize({ width: size, height: size });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${svg}`);
  await writeFile(new URL(name, folder), await page.screenshot({ omitBackground: true }));
}
await browser.close();
