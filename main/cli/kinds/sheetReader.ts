import type { Problem } from "../../../shared/problem.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";

/** Longest side of a sheet: one table cell for each unit of length. */
const LONGEST = 20_000;
const MOST_PIECES = 100_000;
const MOST_ENTRIES = 1_000;
/** Sums of costs and values stay exact in a double. */
const LARGEST = 2 ** 53 / MOST_PIECES;

type Rule = { readonly least: number; readonly most: number; readonly whole: boolean };

export const side: Rule = { least: 1, most: LONGEST, whole: true };
export const copies: Rule = { least: 0, most: MOST_PIECES, whole: true };
/** Whole, so that a bound can be rounded. */
export const money: Rule = { least: 1, most: LARGEST, whole: true };
export const worth: Rule = { least: 0, most: LARGEST, whole: false };

/** Reads plain numbers and rows of numbers of a published instance, and keeps every problem that it meets. */
export class SheetReader {
  readonly problems: Problem[] = [];
  private readonly named: NamedInstance;

  constructor(named: NamedInstance) {
    this.named = named;
  }

  number(at: string, value: unknown, { least, most, whole }: Rule): number {
    const fits = typeof value === "number" && value >= least && value <= most && (!whole || Number.isInteger(value));
    if (fits) return value;
    const mend = `Give a ${whole ? "whole number" : "number"} from ${least} to ${Math.floor(most)}`;
    this.wrong(at, value, "This number does not fit here", mend);
    return least;
  }

  /** A list of rows, each with one number for every rule. */
  rows(field: string, form: string, rules: readonly Rule[]): number[][] {
    const list = this.named.fields[field];
    if (!Array.isArray(list) || list.length > MOST_ENTRIES) {
      const value = Array.isArray(list) ? list.length : list;
      this.wrong(field, value, "This is no list that can be read", `Give [${form}, ...], at most ${MOST_ENTRIES}`);
      return [];
    }
    return list.map((row: unknown, i) => {
      if (!Array.isArray(row) || row.length !== rules.length) {
        this.wrong(`${field}[${i}]`, row, "This row has another form", `Give ${form}`);
        return rules.map(({ least }) => least);
      }
      return rules.map((rule, k) => this.number(`${field}[${i}][${k}]`, row[k], rule));
    });
  }

  wrong(at: string, value: unknown, why: string, mend: string): void {
    this.problems.push({ path: `${this.named.path}.${at}`, value: value ?? null, why, mend });
  }
}
