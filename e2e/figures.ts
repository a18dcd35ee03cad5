// The terminal's answer to a question, and its figures rounded as a page rounds them, written
// here a second time so that a page is held against the numbers and not against itself.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { program } from "./release.mjs";

const reckon = join(dirname(program), "reckon");

export type Part = { material: string; amount: string; bag?: string; price?: string; in_hand?: string; own?: object };
export type Question = {
  parts: Part[];
  pot: Partial<Record<"size" | "rim" | "base" | "height" | "volume" | "below_rim", string>>;
  pots: string;
  purpose: string;
  stands?: object;
  bench?: object;
  chemistry?: object;
  bucket?: object;
};
export type Figure = { name: string; label: string; unit: string; low: number; best: number; high: number };
export type Purchase = { material: string; bag_litres: number; bags: number; bags_to_be_sure: number; cost: number | null };
export type Answer = {
  figures: Figure[];
  verdict: "serves" | "watch" | "does_not_serve";
  judgement: string;
  advice: string;
  cautions: { before: string; sentence: string }[];
  working: { what: string; result: string }[];
  detail: { shopping: Purchase[]; warnings: string[] };
};

/** What the terminal answers to a question of Mix. */
export function terminal(question: Question): Answer {
  return terminalOf("mix", question);
}

/** What the terminal answers to a question of a reckoning. */
export function terminalOf(reckoning: string, question: object): Answer {
  if (!existsSync(reckon)) {
    throw new Error(`${reckon} is missing. cargo build --locked --features site --bin reckon makes it.`);
  }
  const { status, stdout, stderr } = spawnSync(reckon, [reckoning], { input: JSON.stringify(question), encoding: "utf8" });
  if (status !== 0) throw new Error(`The terminal refuses the question: ${stderr}`);
  return JSON.parse(stdout);
}

/** 3 parts of composted bark, 1 of coarse perlite and 1 of coir pith, for twenty pots. */
export function barkPerliteCoir(pot: Question["pot"], change: Partial<Question> = {}): Question {
  const part = (material: string, amount: string) => ({ material, amount, bag: "70 L" });
  return {
    parts: [part("composted_bark", "3"), part("perlite_coarse", "1"), part("coir_pith", "1")],
    pot,
    pots: "20",
    purpose: "fed_from_below",
    ...change,
  };
}

const noBreak = "\u00a0";
const thin = "\u202f";
const minus = "\u2212";

/** Digits with their thousands parted from five on, and the true minus sign. */
function marked(digits: string): string {
  const [whole = "", decimals] = digits.replace("-", "").split(".");
  const grouped = whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, thin);
  const sign = digits.startsWith("-") && /[1-9]/.test(digits) ? minus : "";
  return sign + grouped + (decimals ? `.${decimals}` : "");
}

const power = (value: number) => (value === 0 ? 0 : Number(value.toExponential().split("e")[1]));

/** At most so many figures, without noughts at the end of the decimals. */
export function significant(value: number, figures: number): string {
  const rounded = Number(value.toExponential(figures - 1));
  const digits = rounded.toFixed(Math.max(0, figures - 1 - power(rounded)));
  return marked(digits.includes(".") ? digits.replace(/\.?0+$/, "") : digits);
}

/** The whole number nearest; half counts as one, also where it falls short by the last bits. */
const nearest = (value: number) => Math.round(value * (1 + 1e-9));

/** One step for all three: the largest of 1, 2 or 5 times a power of ten that is no more than
 * a sixth of the span, and no finer than the fourth figure. */
export function rounded({ low, best, high }: Pick<Figure, "low" | "best" | "high">) {
  const span = high - low;
  let print = (value: number) => significant(value, 3);
  if (span > 0) {
    const widest = (span / 6) * (1 + 1e-9);
    const finest = power(Math.max(Math.abs(low), Math.abs(high))) - 3;
    const isFinest = power(widest) < finest;
    const at = isFinest ? finest : power(widest);
    const times = isFinest ? 1 : [5, 2, 1].find((each) => each <= widest / 10 ** at)!;
    // Counts stay whole.
    const whole = at < 0 && [low, best, high].every(Number.isInteger);
    const step = whole ? 1 : times * 10 ** at;
    print = (value) => {
      if (low >= 0 && nearest(value / step) === 0) return significant(value, 1);
      return marked((nearest(value / step) * step).toFixed(whole ? 0 : Math.max(0, -at)));
    };
  }
  return { low: print(low), best: print(best), high: print(high) };
}

/** Units whose key is not what is shown. */
const symbols: Record<string, string> = { day: "days", degC: "°C", "kg/m2": "kg/m²", "W/m2": "W/m²", cm_water: "cm of water" };

/** A figure as a table of a page has it: the best with its unit, and the limits. */
export function asShown(figure: Figure): { best: string; limits: string } {
  const { low, best, high } = rounded(figure);
  const gap = figure.unit === "%" || figure.unit === "" ? "" : noBreak;
  return { best: `${best}${gap}${symbols[figure.unit] ?? figure.unit}`, limits: low === high ? "" : `${low} to ${high}` };
}
