// Moving on: is this batch ready, and are the nights?
import { type Figure, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, Reckoned, wholeFigures } from "./pages";

type Answer = {
  figures: Figure[];
  judgement: string;
  advice: string;
  cautions: { sentence: string }[];
  detail: { reasons: string[]; card: { look_for: string; seen: string }[]; hardening: { day: string; what: string }[]; outlook: string[] };
};

class MovingOn extends Reckoned {
  static override async open(page: Mix["page"], question = ""): Promise<MovingOn> {
    const moving = new MovingOn(page);
    await moving.go(question ? `./#/moving-on?${question}` : "./#/moving-on");
    return moving;
  }
}

async function sameAsTerminal(moving: MovingOn, question: object): Promise<Answer> {
  const answer = terminalOf("moving_on", question) as unknown as Answer;
  await answersAs(moving, answer as any);
  const { reasons, card, hardening, outlook } = answer.detail;
  for (const said of [...reasons, ...outlook, ...card.map((point) => point.look_for), ...hardening.map((step) => step.what)]) {
    await expect(moving.answer).toContainText(said);
  }
  return answer;
}

const USUAL = ["ball", "circling", "tips", "leaves", "height", "flower", "pests", "hardened"];
const may = { today: "2027-05-15", since: "2027-04-20" };

/** Basil for a cold house in May, with the points of its card open. */
async function withPoints(page: Mix["page"]): Promise<MovingOn> {
  const moving = await MovingOn.open(page);
  await moving.type(may);
  await moving.more("Points of the card");
  return moving;
}

/** What stands on the card, in its order. */
const called = (moving: MovingOn) => moving.answer.locator(".points h3").allTextContents();

test("opens from the start with basil for a cold house, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Moving on/ }).click();
  const moving = new MovingOn(page);
  await expect(moving.heading).toHaveText("Moving on");
  await moving.ranged();
  const [today, since] = [await moving.field("today").inputValue(), await moving.field("since").inputValue()];
  await sameAsTerminal(moving, { today, since });
  await expect(moving.answer.getByRole("img", { name: /What is lost/ })).toBeVisible();
});

test("a forecast of 2 °C for tonight, and a night that was read, are asked and answered", everySize, async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.field("today").fill("2027-05-15");
  await moving.field("since").fill("2027-04-20");
  await page.getByRole("button", { name: "Add a forecast" }).click();
  await moving.field("forecasts.0.low").fill("2");
  await moving.more("Minima read where it goes");
  await page.getByRole("button", { name: "Add a night" }).click();
  await moving.field("nights.0.day").fill("2027-05-14");
  await moving.field("nights.0.low").fill("6.5");
  await sameAsTerminal(moving, {
    today: "2027-05-15",
    since: "2027-04-20",
    forecasts: [{ low: "2 degC" }],
    nights: [{ day: "2027-05-14", low: "6.5 degC" }],
  });
});

test("silly numbers get a sentence each, and the last good answer stays", async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.field("today").fill("2027-05-15");
  await moving.field("since").fill("2027-04-20");
  const good = await moving.figures();
  for (const [path, typed, right] of [
    ["seen.leaves", "400", ""],
    ["since", "2027-05-16", "2027-04-20"],
  ] as const) {
    await moving.field(path).fill(typed);
    await expect(moving.lastGood, `${path} ${typed}`).toBeVisible();
    await expect(moving.sentence(path)).not.toBeEmpty();
    expect(await wholeFigures(moving.answer)).toEqual(good);
    await moving.field(path).fill(right);
    await expect(moving.lastGood).toBeHidden();
    await moving.ranged();
  }
});

test("works without a signal, and keeps what was typed over a reload", async ({ page }) => {
  const moving = new MovingOn(page);
  await moving.storedHere();
  await moving.go("./#/moving-on");
  await moving.ranged();
  await page.context().setOffline(true);
  await moving.field("today").fill("2027-05-15");
  await moving.field("since").fill("2027-04-20");
  const answered = await moving.figures();
  await expect.poll(async () => ((await moving.kept("question.moving_on")) as any)?.question.today).toBe("2027-05-15");
  await moving.reload();
  await expect(moving.field("today")).toHaveValue("2027-05-15");
  expect(await moving.figures()).toEqual(answered);
  await page.context().setOffline(false);
});

test("a point of one's own is added, and without it the batch does not move", everySize, async ({ page }) => {
  const moving = await withPoints(page);
  await page.getByRole("button", { name: "Add a point" }).click();
  await expect(moving.sentence("card.8.words")).toContainText("Write what to look for");
  await moving.field("card.8.words").fill("the label is in the tray");
  await expect(moving.sentence("card.8.words")).toBeHidden();
  await moving.field("card.8.weight").selectOption("needed");
  const own = { what: "own", words: "the label is in the tray", weight: "needed", seen: "" };
  const card = [...USUAL.map((what) => ({ what })), own];
  await sameAsTerminal(moving, { ...may, card });
  await moving.field("card.8.seen").selectOption("no");
  await sameAsTerminal(moving, { ...may, card: [...card.slice(0, 8), { ...own, seen: "no" }] });
  await expect(moving.judgement).toContainText("it lacks “the label is in the tray”");
  await expect.poll(async () => ((await moving.kept("question.moving_on")) as any)?.question["card.8.seen"]).toBe("no");
  await moving.reload();
  await expect(moving.field("card.8.words")).toHaveValue("the label is in the tray");
});

test("a point is dropped: it is neither asked nor shown, and can be put back", async ({ page }) => {
  const moving = await withPoints(page);
  await expect(moving.field("seen.pests")).toBeVisible();
  await page.getByRole("button", { name: "Take out: Pests and disease, 7 of 8" }).click();
  await expect(moving.field("seen.pests")).toHaveCount(0);
  const card = USUAL.filter((what) => what !== "pests").map((what) => ({ what }));
  await sameAsTerminal(moving, { ...may, card });
  expect(await called(moving)).not.toContain("Pests and disease");
  await page.getByRole("button", { name: "Add a point" }).click();
  await moving.field("card.7.what").selectOption("pests");
  await expect(moving.field("seen.pests")).toBeVisible();
  await sameAsTerminal(moving, { ...may, card: [...card, { what: "pests" }] });
  expect(await called(moving)).toContain("Pests and disease");
});

test("a point is moved to an earlier place with the keyboard alone, and the cursor goes with it", async ({ page }) => {
  const moving = await withPoints(page);
  const leaves = (place: number) => page.getByRole("button", { name: `Earlier: True leaves, ${place} of 8` });
  await leaves(4).focus();
  for (const place of [3, 2]) {
    await page.keyboard.press("Enter");
    await expect(leaves(place)).toBeFocused();
  }
  // At the head of the card there is no earlier place: the cursor stays on the row.
  await page.keyboard.press("Enter");
  await expect(page.locator("#row-card-0")).toBeFocused();
  await expect(page.locator("#row-card-0")).toContainText("True leaves");
  const card = ["leaves", ...USUAL.filter((what) => what !== "leaves")].map((what) => ({ what }));
  await sameAsTerminal(moving, { ...may, card });
  expect((await called(moving))[0]).toBe("True leaves");
});

test("each point that is looked at has a drawing, which says what it shows", async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.type(may);
  await moving.field("seen.ball").selectOption("3");
  await moving.ranged();
  const drawings = moving.answer.locator(".points").getByRole("img");
  await expect(drawings).toHaveCount(USUAL.length);
  await expect(moving.answer.getByRole("img", { name: "The ball, knocked out: loses 5 to 25 %" }).first()).toBeVisible();
});

test("the card for the bench has a box for each state, and what was seen is ticked", async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.type(may);
  await moving.field("seen.ball").selectOption("4");
  await moving.ranged();
  const bench = moving.answer.locator(".bench-card");
  await expect(bench).toBeHidden();
  await page.emulateMedia({ media: "print" });
  await expect(bench).toBeVisible();
  await expect(moving.answer.locator(".points")).toBeHidden();
  const ball = bench.locator("li").filter({ hasText: "The ball, knocked out" });
  await expect(ball.locator(".tick-box")).toHaveCount(5);
  await expect(bench.locator(".bench-state:not(:has(.looked-at title))")).toHaveCount(0);
  await expect(ball.locator(".bench-state").filter({ hasText: "loses less than 5 %" }).locator(".tick-box path")).toHaveAttribute(
    "d",
    /M3 6/,
  );
});

test("on paper it is one sheet of A4: the answer, and the card for the bench on its back", async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(2);
});
