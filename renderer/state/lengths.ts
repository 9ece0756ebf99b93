import { editableLength, formatLength, parseLength, ticksFrom, ticksTo, type Unit } from "../../core/index.ts";

/** Lengths, counts and prices between a file's plain numbers and what people read and type. */

/** What a typed text means, or why it means nothing. */
export type Read<T> = { readonly value: T } | { readonly why: string };

/**
 * A file's length as people read it, without its unit; a true minus, so that it is not taken for a dash. Thousands are
 * parted as in areas and money; millimetres only from five digits on, and by a thin blank, because many who work in
 * millimetres read a comma as the decimal point.
 */
export const showLength = (value: number, unit: Unit): string =>
  formatLength(ticksFrom(value, unit), unit, { withUnit: false })
    .replace("-", "\u2212")
    .replace(unit === "mm" ? /\d{5,}/ : /\d{4,}/, (whole) =>
      whole.replace(/\B(?=(\d{3})+$)/g, unit === "mm" ? "\u202f" : ","),
    );

/** A file's length as it stands in a field: typed again unchanged, it is the same length. */
export const editLength = (value: number, unit: Unit): string => editableLength(ticksFrom(value, unit), unit);

/** A typed length as the file's number; a bare number is in the job's unit. */
export function readLength(text: string, unit: Unit, negative = false): Read<number> {
  const read = parseLength(text.replace("\u2212", "-"), unit, { negative });
  return read.ok ? { value: ticksTo(read.ticks, unit) } : { why: read.why };
}

/** A whole number of things. */
export function readCount(text: string): Read<number> {
  const bare = text.replace(/[\s,]/g, "");
  return /^\d{1,9}$/.test(bare) ? { value: Number(bare) } : { why: `‘${text.trim()}’ is not a whole number.` };
}

/** An amount of money: digits with at most one decimal point; commas part thousands. */
export function readMoney(text: string): Read<number> {
  const bare = text.replace(/[\s,$€£]/g, "");
  return /^(\d+(\.\d*)?|\.\d+)$/.test(bare) && Number.isFinite(Number(bare))
    ? { value: Number(bare) }
    : { why: `‘${text.trim()}’ is not an amount of money.` };
}

/** How many times something counts: a decimal number, not below nothing. */
export function readFactor(text: string): Read<number> {
  const bare = text.trim().replace(/^×\s*/, "");
  return /^(\d+(\.\d*)?|\.\d+)$/.test(bare) && Number.isFinite(Number(bare))
    ? { value: Number(bare) }
    : { why: `‘${text.trim()}’ is not a number of 0 or more.` };
}

/** A plain number with no more than so many decimals, without zeros at the end. */
export const showNumber = (value: number, most: number): string => String(Number(value.toFixed(most)));
