// The nursery, one thing of it, and files that come in and go out, as whoever uses them sees them.
import type { Download, Locator, Page } from "@playwright/test";
import { expect } from "./fixture";
import { Sheet, Shell, textOf } from "./pages";

export class Nursery extends Shell {
  static async open(page: Page): Promise<Nursery> {
    const nursery = new Nursery(page);
    await nursery.go("./#/nursery");
    await nursery.whole();
    return nursery;
  }

  /** Shows the demo nursery. */
  static async demo(page: Page): Promise<Nursery> {
    const nursery = await Nursery.open(page);
    await page.getByRole("button", { name: "Show the demo nursery" }).click();
    await expect(nursery.house("Top house")).toBeVisible();
    return nursery;
  }

  /** Waits until all of the record has been read. */
  async whole(): Promise<void> {
    await expect(this.heading).toHaveText("Nursery");
    await expect(this.page.locator("#reading")).toBeHidden();
  }

  get plan(): Locator {
    return this.page.locator("#plan");
  }

  house(name: string): Locator {
    return this.plan.locator(".house").filter({ has: this.page.getByRole("heading", { name, exact: true }) });
  }

  bay(name: string): Locator {
    return this.plan.locator(".bay").filter({ has: this.page.locator(".bay-head strong", { hasText: name }) });
  }

  group(title: string): Locator {
    return this.page.locator("#lists details").filter({ has: this.page.locator("summary", { hasText: title }) });
  }

  get odd(): Locator {
    return this.page.locator("#odd");
  }

  get done(): Locator {
    return this.page.locator("#done");
  }

  link(name: string | RegExp): Locator {
    return this.page.locator("#page").getByRole("link", { name });
  }
}

export class Thing extends Shell {
  readonly sheet: Sheet;

  constructor(page: Page) {
    super(page);
    this.sheet = new Sheet(page);
  }

  field(path: string): Locator {
    return this.page.locator(`[id="field-${path.replaceAll(".", "-")}"]`);
  }

  sentence(path: string): Locator {
    return this.page.locator(`[id="field-${path.replaceAll(".", "-")}-problem"]`);
  }

  get save(): Locator {
    return this.page.getByRole("button", { name: "Save", exact: true });
  }

  get unsaved(): Locator {
    return this.page.locator("#unsaved");
  }

  get clashes(): Locator {
    return this.page.locator("#clashes");
  }

  get story(): Locator {
    return this.page.locator("#story");
  }

  async choose(path: string, typed: string, name: string | RegExp): Promise<void> {
    await this.field(path).click();
    await this.sheet.choose(typed, name);
  }

  /** Opens a new thing of a kind, fills its fields in, and saves it. */
  async add(kind: string, texts: Record<string, string>, known = ""): Promise<void> {
    await this.go(`./#/thing?new=${kind}${known}`);
    await expect(this.save).toBeVisible();
    await this.fill(texts);
    await this.save.click();
    await expect(this.page.locator("#thing")).toHaveCount(0);
  }

  /** Fills fields in: `>` before a text chooses it from the sheet, `=` from a list in place. */
  async fill(texts: Record<string, string>): Promise<void> {
    const more = this.page.locator("details.more");
    for (const [path, text] of Object.entries(texts)) {
      const field = this.field(path);
      if ((await more.count()) > 0 && !(await field.isVisible())) await more.locator("summary").click();
      if (text.startsWith(">")) await this.choose(path, text.slice(1), new RegExp(text.slice(1)));
      else if (text.startsWith("=")) await field.selectOption({ label: text.slice(1) });
      else await field.fill(text);
    }
  }
}

export class Files extends Shell {
  static async open(page: Page): Promise<Files> {
    const files = new Files(page);
    await files.go("./#/bring-in");
    await expect(files.found).toBeVisible();
    return files;
  }

  get found(): Locator {
    return this.page.locator("#bring-in");
  }

  async choose(name: string, content: string | Buffer): Promise<void> {
    const buffer = Buffer.from(content);
    await this.page.locator("#file").setInputFiles({ name, mimeType: "", buffer });
  }

  /** The whole record as a file. */
  async record(): Promise<string> {
    return textOf(await this.download(/Export the whole record/));
  }

  async download(name: RegExp): Promise<Download> {
    const button = this.page.locator("#out").getByRole("button", { name });
    const [download] = await Promise.all([this.page.waitForEvent("download"), button.click()]);
    return download;
  }
}
