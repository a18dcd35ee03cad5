// The page of Rinse as whoever uses it sees it.
import type { Locator, Page } from "@playwright/test";
import { settled, Shell, type Shown, wholeFigures } from "./pages";
import { expect } from "./test";

export class Rinse extends Shell {
  readonly answer: Locator;

  constructor(page: Page) {
    super(page);
    this.answer = page.locator(".desk");
  }

  static async open(page: Page, question = ""): Promise<Rinse> {
    const rinse = new Rinse(page);
    await rinse.go(question ? `./#/rinse?${question}` : "./#/rinse");
    return rinse;
  }

  /** The field of a path in the question, such as `conductivity`. */
  field(path: string): Locator {
    return this.page.locator(`[id="field-${path}"]`);
  }

  /** The sentence at a field. */
  sentence(path: string): Locator {
    return this.page.locator(`[id="field-${path}-problem"]`);
  }

  unit(label: string): Locator {
    return this.page.getByRole("combobox", { name: `Unit of: ${label}`, exact: true });
  }

  get lastGood(): Locator {
    return this.answer.locator(".last-good");
  }

  get judgement(): Locator {
    return this.answer.locator(".judgement");
  }

  get advice(): Locator {
    return this.answer.locator(".advice");
  }

  /** Opens what is asked more seldom. */
  async more(): Promise<void> {
    const more = this.page.locator(".asked details").first();
    if ((await more.getAttribute("open")) === null) await more.locator("summary").click();
  }

  /** Waits until the range of the answer has been found. */
  async ranged(): Promise<void> {
    await expect(this.answer.locator(".slow")).toBeHidden();
    await expect(this.judgement).toContainText("in 10");
    await settled(this.answer);
  }

  /** The headline and the figures of the whole, by their labels. */
  async figures(): Promise<Shown> {
    await this.ranged();
    return wholeFigures(this.answer);
  }

  /** What the two tables tell rinse by rinse: best and limits, under the head of their column. */
  async byRinse(head: "Extract" | "Runs off at"): Promise<{ best: string; limits: string }[]> {
    await this.ranged();
    return this.answer.evaluate((answer, head) => {
      const words = (node: Element | null | undefined) => node?.textContent?.trim() ?? "";
      const table = [...answer.querySelectorAll("table")].find((table) =>
        [...table.querySelectorAll("thead th")].some((cell) => words(cell) === head),
      );
      return [...(table?.querySelectorAll("tbody tr") ?? [])].map((row) => {
        const [, best, limits] = row.querySelectorAll("td");
        return { best: words(best), limits: words(limits).replace("–", "") };
      });
    }, head);
  }
}
