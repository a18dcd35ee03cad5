// The pages as whoever uses them sees them.
import type { Download, Locator, Page } from "@playwright/test";
import { asShown, type Answer } from "./figures";
import { expect } from "./test";

/** What stands around every page. */
export class Shell {
  constructor(readonly page: Page) {}

  async go(address: string): Promise<void> {
    await this.page.goto(address);
    await this.opened();
  }

  async opened(): Promise<void> {
    await expect(this.page.locator("#opening")).toHaveCount(0);
    await expect(this.page.locator("#main h1")).toBeVisible();
  }

  async reload(): Promise<void> {
    await this.page.reload();
    await this.opened();
  }

  get heading(): Locator {
    return this.page.getByRole("heading", { level: 1 });
  }

  place(name: string): Locator {
    return this.page.getByRole("navigation", { name: "Places" }).getByRole("link", { name });
  }

  notice(words: string | RegExp): Locator {
    return this.page.locator("p.notice").filter({ hasText: words });
  }

  /** Waits until the page itself has been told that everything is on this device. */
  async storedHere(): Promise<void> {
    await this.go("./");
    await expect(this.page.locator("[data-without]")).toHaveAttribute("data-without", "stored");
    await this.page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  }

  /** A document as it lies on the device: the newest good copy's body. */
  kept(stem: string): Promise<any> {
    return this.page.evaluate((stem) => {
      const copies = ["a", "b"]
        .map((slot) => localStorage.getItem(`longtom.${stem}.${slot}`))
        .filter((text) => text !== null)
        .map((text) => JSON.parse(JSON.parse(text)));
      return copies.toSorted((one, other) => other.turn - one.turn)[0]?.body;
    }, stem);
  }
}

/** A list to choose from. */
export class Sheet {
  readonly root: Locator;

  constructor(readonly page: Page) {
    this.root = page.locator("dialog[open]");
  }

  get search(): Locator {
    return this.root.getByRole("textbox");
  }

  item(name: string | RegExp): Locator {
    return this.root.getByRole("listitem").getByRole("button", { name });
  }

  async choose(typed: string, name: string | RegExp): Promise<void> {
    await this.search.fill(typed);
    await this.item(name).click();
    await expect(this.root).toHaveCount(0);
  }
}

export type Shown = Record<string, { best: string; limits: string }>;

/** Waits until what lies behind and below the answer has followed it: it does so a moment later. */
export async function settled(answer: Locator): Promise<void> {
  await expect(answer).not.toHaveAttribute("aria-busy");
}

/** The headline of an answer and its table of all figures, each by its label. */
export async function wholeFigures(answer: Locator): Promise<Shown> {
  await settled(answer);
  return answer.evaluate((answer) => {
    const words = (node: Element | null | undefined) => node?.textContent?.trim() ?? "";
    const shown: Record<string, { best: string; limits: string }> = {
      [words(answer.querySelector(".headline .what"))]: {
        best: words(answer.querySelector(".headline .large")),
        limits: words(answer.querySelector(".headline .limits")),
      },
    };
    const whole = [...answer.querySelectorAll("details")]
      .find((details) => words(details.querySelector("summary")) === "All figures")
      ?.querySelector("table");
    for (const row of whole?.querySelectorAll("tbody tr") ?? []) {
      const [best, limits] = row.querySelectorAll("td");
      shown[words(row.querySelector("th"))] = { best: words(best), limits: words(limits).replace("–", "") };
    }
    return shown;
  });
}

/** The page of a reckoning says what the terminal says: its verdict's sentence, its advice and its cautions. */
export async function saysAs(
  page: { answer: Locator; judgement: Locator },
  answer: Pick<Answer, "judgement" | "advice" | "cautions">,
): Promise<void> {
  await expect(page.judgement).toHaveText(answer.judgement);
  await expect(page.answer.locator(".advice")).toHaveText(answer.advice);
  expect(await page.answer.locator(".cautions li span").allTextContents()).toEqual(
    answer.cautions.map((caution) => caution.sentence),
  );
}

/** The same, and every figure that the terminal gives, rounded as it should be. */
export async function answersAs(
  page: { answer: Locator; judgement: Locator; figures(): Promise<Shown> },
  answer: Pick<Answer, "judgement" | "advice" | "cautions" | "figures">,
): Promise<void> {
  expect(await page.figures()).toEqual(
    Object.fromEntries(answer.figures.map((figure) => [figure.label, asShown(figure)])),
  );
  await saysAs(page, answer);
}

export class Mix extends Shell {
  readonly answer: Locator;
  readonly sheet: Sheet;

  constructor(page: Page) {
    super(page);
    this.answer = page.locator(".desk");
    this.sheet = new Sheet(page);
  }

  static async open(page: Page, question = ""): Promise<Mix> {
    const mix = new Mix(page);
    await mix.go(question ? `./#/mix?${question}` : "./#/mix");
    return mix;
  }

  /** The field of a path in the question, such as `parts.0.amount`. */
  field(path: string): Locator {
    return this.page.locator(`[id="field-${path.replaceAll(".", "-")}"]`);
  }

  /** The sentence at a field. */
  sentence(path: string): Locator {
    return this.page.locator(`[id="field-${path.replaceAll(".", "-")}-problem"]`);
  }

  unit(label: string): Locator {
    return this.page.getByRole("combobox", { name: `Unit of: ${label}`, exact: true });
  }

  amount(part: number): Locator {
    return this.field(`parts.${part}.amount`);
  }

  material(part: number): Locator {
    return this.field(`parts.${part}.material`);
  }

  get parts(): Locator {
    return this.page.locator(".part");
  }

  get addMaterial(): Locator {
    return this.page.getByRole("button", { name: "Add a material" });
  }

  /** Opens what is asked for more seldom. */
  async more(about: string): Promise<void> {
    const details = this.page.locator("details.more").filter({ has: this.page.getByText(about, { exact: true }) });
    await details.evaluate((details: HTMLDetailsElement) => (details.open = true));
  }

  /** Types into fields by their paths; a unit may stand behind the number, but is not typed. */
  async type(fields: Record<string, string>): Promise<void> {
    for (const [path, value] of Object.entries(fields)) await this.field(path).fill(value);
  }

  get lastGood(): Locator {
    return this.answer.locator(".last-good");
  }

  get large(): Locator {
    return this.answer.locator(".headline .large");
  }

  get limits(): Locator {
    return this.answer.locator(".headline .limits");
  }

  get judgement(): Locator {
    return this.answer.locator(".judgement");
  }

  async choosePot(typed: string, name: string | RegExp): Promise<void> {
    await this.field("pot.size").click();
    await this.sheet.choose(typed, name);
  }

  async chooseMaterial(part: number, typed: string, name: string | RegExp): Promise<void> {
    await this.material(part).click();
    await this.sheet.choose(typed, name);
  }

  /** Waits until the range of the answer has been found. */
  async ranged(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden();
    await expect(this.limits).toHaveText(/\d to \d/);
    await expect(this.judgement).toContainText("in 10");
    await settled(this.answer);
  }

  /** Every figure of the answer by its label, read off the two tables. */
  async figures(): Promise<Shown> {
    await this.ranged();
    const measured = await this.answer.evaluate((answer) => {
      const words = (node: Element | null | undefined) => node?.textContent?.trim() ?? "";
      const rows = [...answer.querySelectorAll("table.shopping tbody tr")];
      return rows.map((row) => {
        const cell = row.querySelector("td");
        const limits = words(cell?.querySelector("small"));
        const best = words(cell).slice(0, words(cell).length - limits.length).trim();
        return [`${words(row.querySelector("th"))} to measure out`, { best, limits }] as const;
      });
    });
    return { ...(await wholeFigures(this.answer)), ...Object.fromEntries(measured) };
  }

  /** Waits until the question with these words in it lies on the device. */
  async saved(test: (question: any) => boolean): Promise<void> {
    await expect.poll(async () => {
      const last = await this.kept("question.mix");
      return last !== undefined && test(last.question);
    }).toBe(true);
  }
}

/** The page of a reckoning whose range takes a while, and whose figures all stand in its table of them. */
export class Reckoned extends Mix {
  /** Waits until all draws are made. */
  override async ranged(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden({ timeout: 30_000 });
    await expect(this.answer).not.toContainText("finding its range", { timeout: 30_000 });
    await settled(this.answer);
  }

  override async figures(): Promise<Shown> {
    await this.ranged();
    return wholeFigures(this.answer);
  }
}

export class Settings extends Shell {
  static async open(page: Page): Promise<Settings> {
    const settings = new Settings(page);
    await settings.go("./#/settings");
    return settings;
  }

  choice(group: string, words: string | RegExp): Locator {
    return this.page.getByRole("group", { name: group }).getByRole("radio", { name: words, exact: true });
  }

  async choose(group: string, words: string | RegExp): Promise<void> {
    await this.choice(group, words).check();
  }

  get asides(): Locator {
    return this.page.locator(".asides li");
  }

  async download(button: Locator): Promise<Download> {
    const [download] = await Promise.all([this.page.waitForEvent("download"), button.click()]);
    return download;
  }
}

/** What is in a file that was saved. */
export async function textOf(download: Download): Promise<string> {
  const pieces: Buffer[] = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece as Buffer);
  return Buffer.concat(pieces).toString("utf8");
}

/** Brings the program to a stop: the next piece of the page that it writes throws. */
export async function stop(shell: Shell): Promise<void> {
  await shell.page.evaluate(() => {
    const usual = Object.getOwnPropertyDescriptor(Element.prototype, "innerHTML")!;
    Object.defineProperty(Element.prototype, "innerHTML", {
      ...usual,
      set() {
        Object.defineProperty(Element.prototype, "innerHTML", usual);
        throw new Error("none today");
      },
    });
    // In the same breath: the page may write something of its own before anybody can click.
    location.hash = "#/settings";
  });
  await expect(shell.heading).toHaveText("Longtom has stopped.");
}
