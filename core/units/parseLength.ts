import { TICKS_PER, type Ticks, ticksFrom, type Unit } from "./ticks.ts";

/** What typed text comes to: a length, or a sentence that says why it is none. */
export type ParsedLength = { readonly ok: true; readonly ticks: Ticks } | { readonly ok: false; readonly why: string };

export interface ParseLengthOptions {
  /** Whether a length below zero makes sense here: a coordinate, an offset. Default false. */
  readonly negative?: boolean;
}

type TypedUnit = "ft" | "in" | "yd" | "mm" | "cm" | "m";

/** 1 ft = 0.3048 m, 1 yd = 0.9144 m exactly (NIST SP 811, appendix B). Larger before smaller, inch family first. */
const ticksOf: Readonly<Record<TypedUnit, Ticks>> = {
  yd: 36 * TICKS_PER.in,
  ft: 12 * TICKS_PER.in,
  in: TICKS_PER.in,
  m: 1000 * TICKS_PER.mm,
  cm: 10 * TICKS_PER.mm,
  mm: TICKS_PER.mm,
};
const inchFamily: readonly TypedUnit[] = ["yd", "ft", "in"];

const unitNames = new Map<string, TypedUnit>(
  Object.entries({
    "'": "ft",
    '"': "in",
    ft: "ft",
    foot: "ft",
    feet: "ft",
    in: "in",
    inch: "in",
    inches: "in",
    yd: "yd",
    yard: "yd",
    yards: "yd",
    mm: "mm",
    millimetre: "mm",
    millimetres: "mm",
    millimeter: "mm",
    millimeters: "mm",
    cm: "cm",
    centimetre: "cm",
    centimetres: "cm",
    centimeter: "cm",
    centimeters: "cm",
    m: "m",
    metre: "m",
    metres: "m",
    meter: "m",
    meters: "m",
  }),
);

const vulgar: Readonly<Record<string, string>> = {
  "½": "1/2",
  "⅓": "1/3",
  "⅔": "2/3",
  "¼": "1/4",
  "¾": "3/4",
  "⅕": "1/5",
  "⅖": "2/5",
  "⅗": "3/5",
  "⅘": "4/5",
  "⅙": "1/6",
  "⅚": "5/6",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

const amount = /(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)|(\d+(?:[.,]\d+)?|[.,]\d+)/y;
const unitName = /\s*('|"|[a-z]+)\.?/y;
const between = /\s*(?:-\s*)?/y;

const farthest = ticksFrom(1_000_000, "in");

/**
 * Reads a length as people type it: `53`, `53.5`, `53 1/2`, `53-1/2`, `4'5"`, `4 ft 5 in`, `1346 mm`, `1.35 m`, with
 * typographic quotes, primes and fraction characters, and with a decimal comma.
 *
 * @param text what was typed
 * @param unit taken where none is typed
 * @returns ticks, the nearest; or a problem to be shown beside the field. Never NaN, always nearer than 1,000,000 in.
 *
 * A comma before exactly three digits could part thousands or decimals, so it is refused rather than guessed.
 */
export function parseLength(text: string, unit: Unit, { negative = false }: ParseLengthOptions = {}): ParsedLength {
  const plain = normalised(text);
  if (plain === "") return { ok: false, why: "Type a length, such as 53 1/2 or 1346 mm." };
  if (/\d,\d{3}(?:$|[^\d])/.test(plain) && !/(?:^|[^\d])0,\d{3}/.test(plain)) {
    return { ok: false, why: "Leave out the comma between thousands, and write decimals with a point." };
  }
  const isNegative = plain.startsWith("-");
  const rest = plain.slice(isNegative ? 1 : 0).trim();
  const terms = readTerms(rest);
  if (typeof terms === "string") return { ok: false, why: terms };
  const given = terms.map((term) => term.unit);
  const units = terms.map((term, index) => term.unit ?? (given[index - 1] === "ft" ? "in" : index === 0 ? unit : null));
  if (units.includes(null)) return { ok: false, why: `Give a unit to each part of "${text.trim()}".` };
  if (!descending(units as TypedUnit[])) return { ok: false, why: "Write the larger unit first, such as 4 ft 5 in." };
  let exact = 0;
  for (const [index, term] of terms.entries()) {
    const perUnit = ticksOf[units[index] as TypedUnit];
    if (term.denominator === 0) return { ok: false, why: "The fraction has 0 below its line." };
    exact += term.whole * perUnit + (term.numerator * perUnit) / term.denominator;
  }
  if (!(exact < farthest)) return { ok: false, why: "That is longer than 1,000,000 in, the most that can be planned." };
  const ticks = Math.round(exact);
  if (isNegative && ticks > 0 && !negative) return { ok: false, why: "A length can't be below zero here." };
  return { ok: true, ticks: isNegative && ticks > 0 ? -ticks : ticks };
}

/** Typographic marks turned into typed ones, lower case, single spaces. */
function normalised(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, (mark) => ` ${vulgar[mark]}`)
    .replace(/[′’‘`´ʹ]/g, "'")
    .replace(/[″”“„ʺ]/g, '"')
    .replace(/''/g, '"')
    .replace(/[−–—‐‑]/g, "-")
    .replace(/[⁄∕]/g, "/")
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^[≈~]\s*/, "")
    .toLowerCase();
}

interface Term {
  readonly whole: number;
  readonly numerator: number;
  readonly denominator: number;
  readonly unit: TypedUnit | null;
}

/** The parts of a length in order, or a problem. */
function readTerms(text: string): Term[] | string {
  const terms: Term[] = [];
  let at = 0;
  while (at < text.length) {
    if (terms.length > 0) at = after(between, text, at)?.end ?? at;
    const found = after(amount, text, at);
    if (found === null) return `"${text.slice(at)}" is not a length; type one such as 53 1/2 or 1346 mm.`;
    at = found.end;
    const [, whole, numerator, denominator, decimal] = found.match;
    const named = after(unitName, text, at);
    const unit = named === null ? null : unitNames.get(named.match[1] ?? "");
    if (unit === undefined) return `"${named?.match[1]}" is not a unit; use in, ft, mm, cm or m.`;
    at = named?.end ?? at;
    terms.push(
      decimal === undefined
        ? { whole: Number(whole ?? 0), numerator: Number(numerator), denominator: Number(denominator), unit }
        : { whole: Number(decimal.replace(",", ".")), numerator: 0, denominator: 1, unit },
    );
  }
  return terms.length > 0 ? terms : "Type a length, such as 53 1/2 or 1346 mm.";
}

function after(pattern: RegExp, text: string, at: number): { match: RegExpExecArray; end: number } | null {
  pattern.lastIndex = at;
  const match = pattern.exec(text);
  return match === null ? null : { match, end: pattern.lastIndex };
}

/** Each unit smaller than the one before it, and all of one family. */
function descending(units: readonly TypedUnit[]): boolean {
  const isInch = inchFamily.includes(units[0] as TypedUnit);
  return units.every((unit, index) => {
    const before = units[index - 1];
    return before === undefined || (ticksOf[unit] < ticksOf[before] && inchFamily.includes(unit) === isInch);
  });
}
