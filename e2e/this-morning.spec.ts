// This morning: what is due, at the head of the start page.
import { everySize, expect, test } from "./fixture";
import { Nursery } from "./nursery-pages";
import { Shell } from "./pages";

class Morning extends Shell {
  get due() {
    return this.page.locator("#this-morning");
  }

  item(words: string | RegExp) {
    return this.due.getByRole("listitem").filter({ hasText: words });
  }
}

/** Adds a thing by the address of a new one of its kind. */
async function add(morning: Morning, kind: string, texts: Record<string, string>): Promise<void> {
  const asked = Object.entries(texts).map(([path, text]) => `&${path}=${encodeURIComponent(text)}`);
  await morning.go(`./#/thing?new=${kind}${asked.join("")}`);
  await morning.page.getByRole("button", { name: "Save", exact: true }).click();
  await expect(morning.page.locator("#thing")).toHaveCount(0);
}

const iso = (day: Date) => `${day.getFullYear()}-${String(day.getMonth() + 1).padStart(2, "0")}-${String(day.getDate()).padStart(2, "0")}`;

test("without a record it offers the demo nursery and what is soonest reckoned", everySize, async ({ page }) => {
  const morning = new Morning(page);
  await morning.go("./");
  await expect(morning.heading).toHaveText("This morning");
  await expect(morning.due.getByRole("link")).toHaveCount(4);
  await morning.due.getByRole("link", { name: /be rinsed/ }).click();
  await expect(morning.heading).toHaveText("Rinse");
});

test("a plan is due on its day; done, it is a batch; undone, it is due again", everySize, async ({ page }) => {
  const morning = new Morning(page);
  const today = iso(new Date());
  await add(morning, "plan", { name: "Basil for the shop", crop: "sweet_basil", wanted: "120", sow_on: today });
  await morning.go("./");
  const sow = morning.item("Sow Basil for the shop");
  await expect(sow).toContainText("cells of sweet basil");
  await expect(sow).toContainText("ready about");
  await sow.getByRole("button", { name: /^Done/ }).click();
  await expect(sow).toHaveCount(0);
  await expect(morning.notice("Written down: Sow Basil for the shop")).toBeVisible();
  await morning.due.getByRole("button", { name: "Undo" }).click();
  await expect(sow).toHaveCount(1);
  await expect(morning.due).toContainText("Taken back");
  // Opened, the batch is there to be saved, as it would be written.
  await sow.getByRole("link", { name: /^Open/ }).click();
  await expect(morning.page.locator("#page")).toContainText("Sown or struck");
  await expect(page.getByLabel("Name")).toHaveValue("Basil for the shop");
});

test("the demo nursery has a morning of its own, and what is done there is stored nowhere", async ({ page }) => {
  await Nursery.demo(page);
  const morning = new Morning(page);
  await morning.place("Reckon").click();
  await expect(morning.heading).toHaveText("This morning");
  await expect(morning.due).toContainText("12 October 2025");
  await expect(morning.due.getByRole("listitem").first()).toBeVisible();
  await page.reload();
  await expect(morning.due).toContainText("Nothing is written down on this device yet");
});

test("at midnight, over the turn of the clock and on a leap day, a new morning begins", async ({ page }) => {
  // A signal of its own must not be needed: the clock of the page is all that moves.
  await page.clock.install({ time: new Date("2028-02-28T20:00:00") });
  const morning = new Morning(page);
  await add(morning, "plan", { name: "Leap parsley", crop: "parsley", wanted: "60", sow_on: "2028-02-29" });
  await morning.go("./");
  await expect(morning.due).toContainText("28 February 2028");
  await expect(morning.due.locator("details", { hasText: "In the next days" })).toContainText("Sow Leap parsley");
  await expect(morning.due.locator("> .due").getByText("Sow Leap parsley")).toHaveCount(0);
  await page.clock.fastForward("04:01:00");
  await expect(morning.due).toContainText("29 February 2028");
  await expect(morning.due.locator("> .due").getByText("Sow Leap parsley")).toHaveCount(1);
  await page.clock.fastForward("30:00:00");
  await expect(morning.due).toContainText("1 March 2028");
  await expect(morning.due.locator("> .due")).toContainText("1 day late");
});

test("without a signal and after a reload it is the same", async ({ page }) => {
  const morning = new Morning(page);
  await morning.storedHere();
  await add(morning, "plan", { name: "Basil", crop: "sweet_basil", wanted: "80", sow_on: iso(new Date()) });
  await page.context().setOffline(true);
  await morning.go("./");
  await expect(morning.item("Sow Basil")).toHaveCount(1);
  await morning.reload();
  await expect(morning.item("Sow Basil")).toHaveCount(1);
  await page.context().setOffline(false);
});
