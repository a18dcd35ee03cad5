// The day book as whoever keeps it sees it, and records to begin with.
import type { Locator, Page } from "@playwright/test";
import { Shell, Sheet } from "./pages";
import { expect } from "./test";

/** CRC-32 of IEEE 802.3, clause 3.2.9, bit by bit. */
function crc32(text: string): string {
  let rest = 0xffffffff;
  for (const byte of Buffer.from(text)) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}

export type Thing = { kind: string; set: Record<string, string> };

/** The id of the thing in this place of what `plant` was given. */
export const idOf = (place: number): string => `seed.${place + 1}.2`;

/** A day so many days from another, as it is stored. */
export function dayAfter(day: string, days: number): string {
  const date = new Date(`${day}T12:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}

/** Puts a record on the device before the page reads it: once, and not again on a reload. */
export async function plant(page: Page, things: Thing[]): Promise<void> {
  const parts = new Map<string, object[]>([["standing", []]]);
  for (const [place, { kind, set }] of things.entries()) {
    const part = set.day?.slice(0, 7) ?? "standing";
    parts.set(part, [...(parts.get(part) ?? []), { id: idOf(place), at: 29000000, add: kind, set }]);
  }
  const texts = [...parts].map(([part, entries]) => {
    const body = { longtom: "record", schema: 1, part, entries };
    const text = `{"longtom":"record","name":"${part}","schema":1,"turn":1,"body":${JSON.stringify(body)}`;
    return [`longtom.record.${part}.a`, JSON.stringify(`${text},"check":"${crc32(text)}"}`)];
  });
  await page.addInitScript((texts) => {
    if (localStorage.getItem("longtom.record.standing.a") !== null) return;
    for (const [key, text] of texts) localStorage.setItem(key!, text!);
  }, texts);
}

/** Two houses, a bay with a thermometer of its own, and a batch. */
export const nursery: Thing[] = [
  { kind: "house", set: { name: "North house" } },
  { kind: "house", set: { name: "South house" } },
  { kind: "bay", set: { name: "Warm bench", inside: idOf(1) } },
  { kind: "instrument", set: { name: "Bench thermometer", measures: "temperature", inside: idOf(2) } },
  { kind: "batch", set: { name: "Parsley 7", crop: "parsley", sown: "2026-03-01", inside: idOf(2) } },
];

export const night = (day: string, low: string, high: string, house = 0): Thing => ({
  kind: "night",
  set: { day, place: idOf(house), low: `${low} degC`, high: `${high} degC` },
});

export class DayBook extends Shell {
  readonly sheet: Sheet;

  constructor(page: Page) {
    super(page);
    this.sheet = new Sheet(page);
  }

  static async open(page: Page, things: Thing[] = []): Promise<DayBook> {
    if (things.length > 0) await plant(page, things);
    const book = new DayBook(page);
    await book.go("./#/day-book");
    return book;
  }

  house(name: string): Locator {
    return this.page.locator("#houses").getByRole("button", { name });
  }

  /** A field of the minimum and maximum: low, high or line. */
  field(path: string): Locator {
    return this.page.locator(`#field-night-${path}`);
  }

  sentence(path: string): Locator {
    return this.page.locator(`#field-night-${path}-problem`);
  }

  more(label: string): Locator {
    return this.page.locator("#night").getByRole("button", { name: `More: ${label}` });
  }

  less(label: string): Locator {
    return this.page.locator("#night").getByRole("button", { name: `Less: ${label}` });
  }

  get save(): Locator {
    return this.page.locator("#night-save");
  }

  get told(): Locator {
    return this.page.locator("#told");
  }

  get undo(): Locator {
    return this.told.getByRole("button");
  }

  get entries(): Locator {
    return this.page.locator("#entered li");
  }

  entry(words: string | RegExp): Locator {
    return this.entries.filter({ hasText: words });
  }

  act(name: string): Locator {
    return this.page.locator("#acts").getByRole("button", { name, exact: true });
  }

  get form(): Locator {
    return this.page.locator("#act");
  }

  actField(path: string): Locator {
    return this.form.locator(`#field-${path}`);
  }

  async saveAct(): Promise<void> {
    await this.form.getByRole("button", { name: "Save", exact: true }).click();
    await expect(this.told).toContainText("Saved: ");
  }

  /** Waits until an entry with these words lies on the device. */
  async lies(part: string, count: number): Promise<void> {
    await expect.poll(async () => (await this.kept(`record.${part}`))?.entries.length ?? 0).toBe(count);
  }
}
