// What the record brings to Mix, and what Mix puts into it.
import { everySize, expect, test } from "./fixture";
import { Mix, Shell } from "./pages";

test("a mix is kept in the record, taken from there, and the question before it brought back", everySize, async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await expect(page.locator("html")).toHaveAttribute("data-nursery-here", "");
  const mix = await Mix.open(page);
  const brought = page.locator("#from-nursery");
  await mix.amount(0).fill("4");
  await mix.ranged();
  await brought.getByRole("button", { name: "Keep it in the record" }).click();
  await expect(brought.getByRole("status")).toHaveText("Write a name for it first.");
  await brought.getByRole("textbox").fill("House mix");
  await brought.getByRole("button", { name: "Keep it in the record" }).click();
  await expect(brought.getByRole("status")).toHaveText("Kept. It stands among your mixes.");

  await mix.amount(0).fill("7");
  await mix.saved((question) => question["parts.0.amount"] === "7");
  await brought.getByRole("button", { name: "House mix" }).click();
  await expect(mix.amount(0)).toHaveValue("4");
  await page.getByRole("button", { name: "Bring mine back" }).click();
  await expect(mix.amount(0)).toHaveValue("7");

  // There is a record now, so its program is fetched when the browser is idle.
  await mix.reload();
  await expect(brought.getByRole("button", { name: "House mix" })).toBeVisible();
  await mix.place("Nursery").click();
  await expect(page.getByText("House mix")).toHaveCount(1);
});

test("pots and materials of the demo nursery can be asked about, and nothing of it is stored", async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await page.getByRole("button", { name: "Show the demo nursery" }).click();
  await expect(shell.notice("This is the demo nursery.")).toBeVisible();
  await page.goto("./#/mix");
  const mix = new Mix(page);
  const brought = page.locator("#from-nursery");
  const first = brought.locator("p.takeaway").first().getByRole("button").first();
  await first.click();
  await mix.ranged();
  expect(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("longtom.record."))))
    .toEqual([]);
});
