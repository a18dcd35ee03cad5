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

test("on paper it is one sheet of A4: the answer, and the card for the bench on its back", async ({ page }) => {
  const moving = await MovingOn.open(page);
  await moving.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(2);
});
