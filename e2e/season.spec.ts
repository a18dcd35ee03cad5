// Season: how many to sow, when, whether all find room, and what to buy.
import { type Figure, terminalOf } from "./figures";
import { everySize, expect, test } from "./fixture";
import { answersAs, Mix, Reckoned, wholeFigures } from "./pages";

type Answer = {
  figures: Figure[];
  judgement: string;
  advice: string;
  detail: {
    sown: { crop: string; on: string; cells: number }[];
    weeks: object[];
    mends: string[];
    bought: { what: string; needed: string; buy: number }[];
    tests: string[];
  };
};

class Season extends Reckoned {
  static override async open(page: Mix["page"], question = ""): Promise<Season> {
    const season = new Season(page);
    await season.go(question ? `./#/season?${question}` : "./#/season");
    return season;
  }

  /** What is to be bought for all of it. */
  get bought() {
    const lists = this.answer.getByRole("table").filter({ has: this.page.getByRole("columnheader", { name: "Needed" }) });
    return lists.last().locator("tbody tr");
  }

  rows(table: string) {
    return this.answer.getByRole("table", { name: table }).locator("tbody tr");
  }
}

async function sameAsTerminal(season: Season, question: object): Promise<Answer> {
  const answer = terminalOf("season", question) as unknown as Answer;
  await answersAs(season, answer);
  const { detail } = answer;
  await expect(season.rows("In the order of its days")).toHaveCount(detail.sown.length);
  for (const said of [...detail.mends, ...detail.tests]) await expect(season.answer).toContainText(said);
  for (const { what, needed } of detail.bought) {
    await expect(season.bought.filter({ hasText: what })).toContainText(needed);
  }
  return answer;
}

test("opens from the start with basil for May, as the terminal answers it", everySize, async ({ page }) => {
  await page.goto("./");
  await page.getByRole("link", { name: /^Season/ }).click();
  const season = new Season(page);
  await expect(season.heading).toHaveText("Season");
  await sameAsTerminal(season, {});
  await expect(season.answer.getByRole("img", { name: /The season/ })).toBeVisible();
  await season.answer.getByText("The drawing as a table").click();
  await expect(season.rows("Room taken: warm bench").first()).toBeVisible();
});

test("basil, chillies and coriander every fortnight on two benches: as the terminal answers, within sixty taps", everySize, async ({ page }) => {
  const season = await Season.open(page);
  let taps = 0;
  const fill = async (path: string, text: string) => {
    taps += 1;
    await season.field(path).fill(text);
  };
  const choose = async (path: string, name: string) => {
    taps += 3; // open the list, type, choose
    await season.field(path).click();
    await season.sheet.choose(name, name);
  };
  const press = async (name: string) => {
    taps += 1;
    await page.getByRole("button", { name }).click();
  };
  await press("Add a sowing");
  await choose("sowings.1.crop", "coriander");
  await fill("sowings.1.wanted", "80");
  await fill("sowings.1.day", "2027-05-10");
  await press("Add a sowing");
  await choose("sowings.2.crop", "chilli (annuum)");
  await fill("sowings.2.wanted", "60");
  await fill("sowings.2.day", "2027-05-25");
  taps += 1;
  await season.more("More of each sowing");
  await fill("sowings.1.times", "10");
  await fill("sowings.0.packet_price", "3.5");
  await fill("sowings.0.pot_price", "0.08");
  const { detail } = await sameAsTerminal(season, {
    sowings: [
      { packet_price: "3.5", pot_price: "0.08" },
      { crop: "coriander", wanted: "80", day: "2027-05-10", times: "10" },
      { crop: "chilli_annuum", wanted: "60", day: "2027-05-25" },
    ],
  });
  expect(detail.sown.length).toBe(12);
  await expect(season.answer).toContainText("in your money");
  console.log(`${taps} taps`);
  expect(taps).toBeLessThanOrEqual(60);
});

test("a sowing is moved by dragging, by its steps and by the keyboard, and all else follows", everySize, async ({ page }) => {
  const season = await Season.open(page);
  await season.ranged();
  const day = season.field("sowings.0.day");
  await day.fill("2027-05-20");
  await season.ranged();
  const firstSown = () => season.rows("In the order of its days").first().locator("td").first().textContent();
  const before = await firstSown();
  await page.getByRole("button", { name: "Later: Day: sweet basil, sowing 1" }).click();
  await expect(day).toHaveValue("2027-05-27");
  await expect.poll(firstSown).not.toBe(before);
  await page.getByRole("button", { name: "Earlier: Day: sweet basil, sowing 1" }).click();
  await expect(day).toHaveValue("2027-05-20");
  await day.focus();
  await day.press("ArrowUp");
  await expect(day).not.toHaveValue("2027-05-20");
  await day.fill("2027-05-20");
  await season.ranged();
  const bar = season.answer.locator("[data-of-row='0'] path").first();
  await bar.scrollIntoViewIfNeeded();
  const box = (await bar.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (const by of [5, 20, 40, 60]) await page.mouse.move(x + by, y);
  await page.mouse.up();
  const moved = await day.inputValue();
  expect(moved > "2027-05-20", moved).toBe(true);
  await expect.poll(firstSown).not.toBe(before);
  // Let go of, it stays.
  await page.mouse.move(x - 50, y);
  await expect(day).toHaveValue(moved);
});

test("what is sown already takes room, is told beside what was meant, and tells its own figures", everySize, async ({ page }) => {
  const batch = { crop: "sweet_basil", number: "200", sown: "2027-03-01", up: "2027-03-08", potted: "2027-03-24", meant_ready: "2027-04-20" };
  const asked = Object.entries(batch).map(([path, text]) => `batches.0.${path}=${text}`).join("&");
  const rest = "batches.0.pot=round_9_cm&batches.0.spacing=110%20mm&batches.0.first=1&batches.0.then=2";
  const season = await Season.open(page, `${asked}&${rest}`);
  await sameAsTerminal(season, { batches: [batch] });
  const told = season.rows("What happened, and (in brackets) what is to come");
  await expect(told).toContainText("8 Mar");
  await expect(told).toContainText("meant 20 Apr");
  await expect(season.rows("In the middle the most likely, around it 8 batches of 10").first()).toContainText("1 batch");
  await season.more("What is sown already");
  await page.getByRole("button", { name: "Add a batch" }).click();
  await expect(season.sentence("batches.1.sown")).not.toBeEmpty();
  await expect(season.lastGood).toBeVisible();
  await page.getByRole("button", { name: "Take out sweet basil, batch 2" }).click();
  await expect(season.lastGood).toBeHidden();
});

test("a bench too small is told with what would mend it", async ({ page }) => {
  const season = await Season.open(page);
  await season.field("places.1.length").fill("1.5");
  const { detail } = await sameAsTerminal(season, { places: [{}, { name: "house bench", held: "16 degC", length: "1.5 m", breadth: "1.5 m" }] });
  expect(detail.mends.length).toBeGreaterThan(0);
  await expect(season.answer.getByRole("heading", { name: "What would mend it" })).toBeVisible();
});

test("silly numbers get a sentence each, and the last good answer stays", async ({ page }) => {
  const season = await Season.open(page);
  const good = await season.figures();
  await season.more("More of each sowing");
  for (const [path, typed, right] of [
    ["sowings.0.wanted", "0", "240"],
    ["sowings.0.up", "150", ""],
    ["sowings.0.lost", "100", "5"],
    ["sowings.0.spacing", "40", "110"],
    ["places.0.length", "0", "3"],
    ["places.0.held", "80", "21"],
  ] as const) {
    await season.field(path).fill(typed);
    await expect(season.lastGood, `${path} ${typed}`).toBeVisible();
    await expect(season.sentence(path)).not.toBeEmpty();
    expect(await wholeFigures(season.answer)).toEqual(good);
    await season.field(path).fill(right);
    await expect(season.lastGood).toBeHidden();
    await season.ranged();
  }
  const linked = await Season.open(page, "sowings.0.day=31%20February%202027");
  await expect(linked.sentence("sowings.0.day")).toContainText("February");
});

test("works without a signal, keeps what was typed over a reload, and opens elsewhere by its link", async ({ page, browser, baseURL, guard }) => {
  const season = new Season(page);
  await season.storedHere();
  await season.go("./#/season");
  await season.ranged();
  await page.context().setOffline(true);
  await season.field("sowings.0.wanted").fill("300");
  const answered = await season.figures();
  await expect.poll(async () => ((await season.kept("question.season")) as any)?.question["sowings.0.wanted"]).toBe("300");
  await season.reload();
  await expect(season.field("sowings.0.wanted")).toHaveValue("300");
  expect(await season.figures()).toEqual(answered);
  await page.context().setOffline(false);
  await expect.poll(() => page.url()).toContain("sowings.0.wanted=300");
  const elsewhere = await browser.newContext({ baseURL });
  await guard.watch(elsewhere);
  const other = new Season(await elsewhere.newPage());
  await other.go(page.url());
  expect(await other.figures()).toEqual(answered);
  await elsewhere.close();
});

test("on paper it is one side of A4", async ({ page }) => {
  const season = await Season.open(page);
  await season.ranged();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
});
