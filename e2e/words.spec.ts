// The order in which things are read, and words that no page of this program uses.
import { expect, test } from "./fixture";
import { Mix } from "./pages";

const questions: [string, string, string[]][] = [
  ["bark in a small pot", "", ["Before you open the bags", "Before you tip and mix", "Before you lift"]],
  [
    "sand in a large pot",
    "parts.0.material=sharp_sand&parts.0.amount=1&parts.0.bag=850%20L&pot.size=round_15_l&pots=2&purpose=growing_on",
    ["Before you tip and mix", "Before you lift"],
  ],
];

for (const [what, question, steps] of questions) {
  test(`the cautions stand before what is measured out: ${what}`, async ({ page }) => {
    const mix = await Mix.open(page, question);
    await mix.ranged();
    expect(await mix.answer.locator(".cautions li strong").allTextContents()).toEqual(steps);
    const order = await mix.answer.evaluate((answer) => {
      const cautions = answer.querySelector(".cautions")!;
      const table = [...answer.querySelectorAll("caption")].find((caption) => caption.textContent!.startsWith("Measure out"))!;
      return {
        read: Boolean(cautions.compareDocumentPosition(table) & Node.DOCUMENT_POSITION_FOLLOWING),
        seen: cautions.getBoundingClientRect().bottom <= table.getBoundingClientRect().top,
        // Nothing to be opened first, and nothing to be scrolled sideways.
        plain: cautions.closest("details") === null && cautions.getBoundingClientRect().height > 0,
      };
    });
    expect(order).toEqual({ read: true, seen: true, plain: true });
    // Each says who says so.
    for (const source of await mix.answer.locator(".cautions li small").allTextContents()) {
      expect(source).toMatch(/\w/);
    }
  });
}

test("no page says Error, invalid, success or oops", async ({ page }) => {
  const mix = await Mix.open(page);
  await mix.amount(0).fill("1,250");
  await mix.field("pots").fill("-3");
  await expect(mix.lastGood).toBeVisible();
  const never = /\b(error|invalid|success|successfully|oops|failed|please)\b/i;
  for (const address of ["./#/mix", "./#/recipe", "./", "./#/look-up", "./#/settings"]) {
    await mix.go(address);
    expect(await page.locator("body").innerText(), address).not.toMatch(never);
  }
});

test("every page has one first heading, a title, and its place marked", async ({ page }) => {
  const mix = new Mix(page);
  for (const [address, heading, title, place] of [
    ["./", "This morning", "Reckon", "Reckon"],
    ["./#/mix", "Mix", "Mix", "Reckon"],
    ["./#/recipe", "Recipe", "Recipe", "Reckon"],
    ["./#/look-up", "Look up", "Look up", "Look up"],
    ["./#/settings", "Settings", "Settings", "Settings"],
    ["./#/nowhere", "This morning", "Reckon", "Reckon"],
  ] as const) {
    await mix.go(address);
    await expect(mix.heading).toHaveText(heading);
    await expect(page).toHaveTitle(`${title} – Longtom`);
    await expect(mix.place(place)).toHaveAttribute("aria-current", "page");
  }
});

test("back and forward go from place to place, not from key to key", async ({ page }) => {
  const mix = new Mix(page);
  await mix.go("./");
  await page.getByRole("link", { name: /^Mix/ }).click();
  await mix.amount(0).fill("4");
  await mix.amount(0).fill("5");
  await mix.ranged();
  await mix.place("Look up").click();
  await expect(mix.heading).toHaveText("Look up");
  await page.goBack();
  await expect(mix.heading).toHaveText("Mix");
  await expect(mix.amount(0)).toHaveValue("5");
  await page.goBack();
  await expect(mix.heading).toHaveText("This morning");
  await page.goForward();
  await expect(mix.amount(0)).toHaveValue("5");
});
