// What the record brings to Mix, and what Mix puts into it.
import { everySize, expect, test } from "./fixture";
import { Nursery } from "./nursery-pages";
import { Mix, Reckoned, Shell } from "./pages";

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

test("a drain test is kept with the mix, stands in the day book, and overrules the handbook again", async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await expect(page.locator("html")).toHaveAttribute("data-nursery-here", "");
  const mix = await Mix.open(page);
  await mix.ranged();
  const byHandbook = await mix.figures();
  const brought = page.locator("#from-nursery");
  await mix.more("What you measured yourself");
  await mix.field("parts.0.own.figures").selectOption("drain_test");
  const at = (vessel: string, [volume, height, filled, soaked, drained]: string[]) =>
    Object.fromEntries(
      Object.entries({ volume, height, filled, soaked, drained }).map(([name, value]) => [`parts.0.own.${vessel}.${name}`, value!]),
    );
  await mix.type({
    "parts.0.own.moisture": "45",
    ...at("short", ["1", "100", "420", "940", "640"]),
    ...at("tall", ["2", "200", "840", "1880", "1180"]),
  });
  await mix.ranged();
  const byTest = await mix.figures();
  expect(byTest).not.toEqual(byHandbook);
  const keep = brought.getByRole("button", { name: "Keep it in the record" });
  await brought.getByRole("textbox").fill("Tested mix");
  await keep.click();
  await expect(brought.getByRole("status")).toHaveText("Kept among your mixes, and 2 drain tests among your tests.");
  // The same test is not kept twice.
  await brought.getByRole("textbox").fill("Tested mix again");
  await keep.click();
  await expect(brought.getByRole("status")).toHaveText("Kept. It stands among your mixes.");

  await mix.field("parts.0.own.figures").selectOption("handbook");
  await mix.ranged();
  expect(await mix.figures()).toEqual(byHandbook);
  await brought.locator("h3", { hasText: "Your drain tests" }).locator("+ p").getByRole("button").click();
  await expect(mix.field("parts.0.own.tall.drained")).toHaveValue("1180");
  await mix.ranged();
  expect(await mix.figures()).toEqual(byTest);

  await mix.place("Day book").click();
  await expect(page.getByText(/drain test of a pot/)).toHaveCount(2);
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

test("a bed is kept in its tray with a note in the day book, taken from there, changed, and taken back", everySize, async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await expect(page.locator("html")).toHaveAttribute("data-nursery-here", "");
  const bed = new Mix(page);
  await bed.go("./#/bed?parts.0.material=white_peat&parts.0.amount=1&bed.medium=sand_sharp&tray.wall=80%20mm");
  const brought = page.locator("#from-nursery");
  const keep = brought.getByRole("button", { name: "Keep it in the record" });
  const undo = brought.getByRole("button", { name: "Undo" });
  const name = brought.getByLabel("Keep this bed in the tray called");
  await name.fill("Long tray");
  await expect(brought).toHaveAttribute("data-answered", /depth/, { timeout: 60_000 });
  await expect(undo).toBeHidden();
  await keep.click();
  await expect(brought.getByRole("status")).toHaveText("Kept in the tray, with a note in the day book.");

  await bed.field("tray.wall").fill("50");
  await expect.poll(() => page.url()).toContain("tray.wall=50");
  await brought.getByRole("button", { name: "Long tray" }).click();
  await expect(bed.field("tray.wall")).toHaveValue("80");
  await expect(name).toHaveValue("Long tray");

  // A second keeping changes the same tray, and is taken back whole.
  await expect(brought).toHaveAttribute("data-answered", /depth/, { timeout: 60_000 });
  await keep.click();
  await expect(brought.getByRole("status")).toHaveText("Kept in the tray, with a note in the day book.");
  await expect(brought.getByRole("button", { name: "Long tray" })).toHaveCount(1);
  await undo.click();
  await expect(brought.getByRole("status")).toHaveText("Taken back.");
  await expect(undo).toBeHidden();

  await bed.reload();
  await expect(brought.getByRole("button", { name: "Long tray" })).toBeVisible();
  await bed.place("Day book").click();
  await expect(page.getByText(/A bed of sharp sand/)).toHaveCount(1);
  await bed.place("Nursery").click();
  await page.getByText("Long tray").first().click();
  await expect(page.getByText(/sharp sand/).first()).toBeVisible();
});

test("a bench of the demo nursery goes into Root zone, and what came of it into the day book", everySize, async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await page.getByRole("button", { name: "Show the demo nursery" }).click();
  await expect(shell.notice("This is the demo nursery.")).toBeVisible();
  const root = new Mix(page);
  await page.goto("./#/root-zone");
  const brought = page.locator("#from-nursery");
  await expect(brought.getByRole("heading", { name: "Your bays and benches" })).toBeVisible();
  const name = brought.getByLabel("Note this in the day book for the bay called");
  await name.fill("No such bay");
  await expect(root.answer.getByRole("heading", { name: "Through the year" })).toBeVisible({ timeout: 30_000 });
  await brought.getByRole("button", { name: "Keep it in the record" }).click();
  await expect(brought.getByRole("status")).toHaveText("There is no bay of that name yet. Add it under Nursery, or choose one above.");
  await brought.getByRole("button", { name: "Warm bench" }).click();
  await expect(root.field("stand")).toHaveValue("bench");
  await expect(name).toHaveValue("Warm bench");
  await expect(root.field("air.by")).toHaveValue("inside");
  await expect(root.answer.getByRole("heading", { name: "Through the year" })).toBeVisible({ timeout: 30_000 });
  await expect.poll(async () => {
    await brought.getByRole("button", { name: "Keep it in the record" }).click();
    return brought.getByRole("status").textContent();
  }).toBe("Noted in the day book.");
});

test("a bay with readings is fitted, the fit is kept with it, and it is reckoned with from then on", everySize, async ({ page }) => {
  const shell = new Shell(page);
  await shell.go("./#/nursery");
  await page.getByRole("button", { name: "Show the demo nursery" }).click();
  await expect(shell.notice("This is the demo nursery.")).toBeVisible();
  const root = new Mix(page);
  await page.goto("./#/root-zone");
  const brought = page.locator("#from-nursery");
  const bay = brought.getByRole("button", { name: "East slats" });
  await bay.click();
  await expect(root.answer).toContainText("Fitted to your readings raised", { timeout: 30_000 });
  const keep = () =>
    expect.poll(async () => {
      await brought.getByRole("button", { name: "Keep it in the record" }).click();
      return brought.getByRole("status").textContent();
    }).toContain("what was fitted is kept with the bay");
  await keep();
  await brought.getByRole("button", { name: "Undo" }).click();
  await bay.click();
  await expect(root.answer).toContainText("Fitted to your readings raised", { timeout: 30_000 });
  await expect(root.answer).not.toContainText("Reckoned with what was fitted");
  await keep();
  await bay.click();
  await expect(root.answer).toContainText("Reckoned with what was fitted to your readings", { timeout: 30_000 });
  await expect(root.answer).not.toContainText("Fitted to your readings raised");
});

test("Season takes all of the record, keeps its sowings as plans, and takes them back", everySize, async ({ page }) => {
  await Nursery.demo(page);
  const season = new Mix(page);
  await season.place("Reckon").click();
  await page.locator("#page").getByRole("link", { name: /^Season/ }).click();
  const brought = page.locator("#from-nursery");
  await brought.getByRole("button", { name: "Take it all from the record" }).click();
  await expect(season.field("places.0.name")).toHaveValue("Warm bench");
  await expect(season.field("batches.0.sown")).toHaveValue("2025-09-08");
  await expect(season.answer.getByRole("table", { name: /8 batches of 10/ })).toContainText("flat parsley");
  await brought.getByRole("textbox").fill("2026");
  await brought.getByRole("button", { name: "Keep it in the record" }).click();
  await expect(brought.getByRole("status")).toHaveText("1 plan changed.", { timeout: 20_000 });
  await page.getByRole("button", { name: "Add a sowing" }).click();
  await expect(season.answer.locator(".slow")).toBeHidden({ timeout: 30_000 });
  await brought.getByRole("button", { name: "Keep it in the record" }).click();
  await expect(brought.getByRole("status")).toContainText("Kept as 1 plan, and 1 plan changed", { timeout: 20_000 });
  await brought.getByRole("button", { name: "Undo" }).click();
  await expect(brought.getByRole("status")).toHaveText("Taken back.");
});

test("a batch goes into Moving on, its verdict is written to it and followed in the morning, and taken back", everySize, async ({ page }) => {
  const nursery = await Nursery.demo(page);
  const moving = new Reckoned(page);
  await moving.go("./#/moving-on");
  await moving.ranged();
  const brought = page.locator("#from-nursery");
  const write = brought.getByRole("button", { name: "Write the verdict to the batch" });
  await write.click();
  await expect(brought.getByRole("status")).toHaveText(/^Choose a batch of your nursery first/);

  await brought.getByRole("button", { name: "Flat parsley for winter" }).click();
  await expect(moving.field("today")).toHaveValue("2025-10-12");
  await moving.ranged();
  await expect(moving.answer).toContainText("parsley");
  await write.click();
  await expect(brought.getByRole("status")).toHaveText(/^Written to the batch/);

  await nursery.place("Reckon").click();
  const due = page.locator("#this-morning");
  await expect(due).toContainText("Flat parsley for winter");
  await page.goBack();
  await moving.ranged();
  await nursery.place("Nursery").click();
  await nursery.link(/^Flat parsley for winter/).first().click();
  await expect(page.locator("#page")).toContainText("verdict");
  // And from the batch to the question again.
  await page.locator("#page").getByRole("link", { name: "Is it ready to move?" }).click();
  await expect(moving.heading).toHaveText("Moving on");
  await expect(moving.field("today")).toHaveValue("2025-10-12");
});

test("how a move went is said with one tap, and can be taken back", async ({ page }) => {
  await Nursery.demo(page);
  const moving = new Reckoned(page);
  await moving.go("./#/moving-on");
  const brought = page.locator("#from-nursery");
  await brought.getByRole("button", { name: "Curled parsley 2" }).click();
  await expect(moving.field("today")).toHaveValue("2025-10-12");
  await expect(brought.getByRole("heading", { name: /^How has it gone since it moved on/ })).toBeVisible();
  await brought.getByRole("button", { name: "It grew on" }).click();
  await expect(brought.getByRole("status")).toHaveText(/^Written down/);
  await expect(brought.getByRole("heading", { name: /^How has it gone/ })).toHaveCount(0);
  await brought.getByRole("button", { name: "Undo" }).click();
  await expect(brought.getByRole("heading", { name: /^How has it gone/ })).toBeVisible();
});
