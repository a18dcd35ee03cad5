// Side by side: up to four mixes in one pot, or one mix in up to four pots.
import type { Locator, Page } from "@playwright/test";
import { asShown, barkPerliteCoir, terminal } from "./figures";
import { everySize, expect, test } from "./fixture";
import { Mix, Shell } from "./pages";

class Beside extends Shell {
  static async open(page: Page): Promise<Beside> {
    const beside = new Beside(page);
    await beside.go("./#/side-by-side");
    return beside;
  }

  get cards(): Locator {
    return this.page.locator(".card");
  }

  row(label: string): Locator {
    return this.page.getByRole("row").filter({ has: this.page.getByRole("rowheader", { name: label, exact: true }) });
  }

  button(words: string): Locator {
    return this.page.getByRole("button", { name: words, exact: true });
  }
}

async function setBeside(mix: Mix, many: number): Promise<Beside> {
  await mix.page.getByRole("button", { name: "Set beside others" }).click();
  const beside = new Beside(mix.page);
  await expect(beside.heading).toHaveText("Side by side");
  await expect(beside.cards).toHaveCount(many);
  return beside;
}

test("one mix in two pots, with the figures that the terminal gives", everySize, async ({ page }) => {
  let mix = await Mix.open(page);
  await mix.ranged();
  let beside = await setBeside(mix, 1);
  await expect(beside.cards.first()).toContainText("composted bark");
  mix = await Mix.open(page);
  await mix.choosePot("8.5", /8\.5 L/);
  await mix.ranged();
  beside = await setBeside(mix, 2);
  const label = "water in this pot, once drained";
  const cells = beside.row(label).getByRole("cell");
  for (const [column, size] of ["round_10_cm", "round_8_5_l"].entries()) {
    const figure = terminal(barkPerliteCoir({ size })).figures.find((figure) => figure.label === label)!;
    const shown = asShown(figure);
    await expect(cells.nth(column)).toContainText(shown.best);
    await expect(cells.nth(column).locator("small")).toHaveText(shown.limits);
  }
  await expect(page.locator(".card svg")).toHaveCount(2 * 2); // the drawing, and the verdict's mark
  // A narrow page is not made wider by them.
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  await beside.reload();
  await expect(beside.cards).toHaveCount(2);
});

test("four at the most, and the link opens them elsewhere", async ({ page, browser, baseURL, guard }) => {
  for (let many = 1; many <= 4; many++) {
    const mix = await Mix.open(page);
    await mix.amount(0).fill(String(many + 1));
    await mix.ranged();
    await setBeside(mix, many);
  }
  const mix = await Mix.open(page);
  await mix.amount(0).fill("9");
  await mix.ranged();
  const beside = await setBeside(mix, 4);
  await expect(beside.notice("Four stand side by side already")).toBeVisible();
  const link = page.url();
  await beside.button("Take out B").click();
  await expect(beside.cards).toHaveCount(3);

  const elsewhere = await browser.newContext({ baseURL: baseURL! });
  await guard.watch(elsewhere);
  const other = new Beside(await elsewhere.newPage());
  await other.go(link);
  await expect(other.cards).toHaveCount(4);
  await expect(other.row("air, mean of tray full and tray just empty").getByRole("cell")).toHaveCount(4);
  await elsewhere.close();
});

test("one of them is opened in Mix, changed, and taken out again to the last", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.ranged();
  const beside = await setBeside(mix, 1);
  await beside.button("Open A").click();
  await expect(beside.heading).toHaveText("Mix");
  await page.goBack();
  await expect(beside.cards).toHaveCount(1);
  await beside.button("Take out A").click();
  await expect(page.getByText("Nothing stands here yet.")).toBeVisible();
  await beside.reload();
  await expect(page.getByText("Nothing stands here yet.")).toBeVisible();
});

test("without a signal, and from a link that is none", async ({ page, context }) => {
  const shell = new Shell(page);
  await shell.storedHere();
  await context.setOffline(true);
  const mix = await Mix.open(page);
  await mix.ranged();
  const beside = await setBeside(mix, 1);
  await expect(beside.row("water in this pot, once drained").locator("small")).toHaveText(/\d to \d/);
  await beside.go("./#/side-by-side?%F0%9F=x&9.parts=3&0.parts.0.material=moon");
  await expect(page.getByText(/Nothing stands here yet|cannot be answered as it stands/)).toBeVisible();
});
