import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("piecesOnce");

/** Every panel and fill lies on a roll once per copy of its elevation, every loose piece as often as asked. */
export const piecesOnce: LayoutCheck = ({ job, layout, placed }) => {
  const found: Violation[] = [];
  const times = new Map<string, Map<number, number>>();
  for (const { piece } of placed) {
    const copies = times.get(piece.id) ?? new Map<number, number>();
    copies.set(piece.copy, (copies.get(piece.copy) ?? 0) + 1);
    times.set(piece.id, copies);
  }
  const due = [
    ...layout.panels.map(({ id, elevation }) => ({ id, count: job.elevations.get(elevation)?.elevation.count ?? 0 })),
    ...job.instance.pieces.map(({ id, count }) => ({ id, count })),
  ];
  for (const { id, count } of due) {
    const copies = times.get(id) ?? new Map<number, number>();
    const missing: number[] = [];
    for (let copy = 1; copy <= count; copy++) if (!copies.has(copy)) missing.push(copy);
    if (missing.length > 0) {
      found.push(breach([id], `copy ${listed(missing)} of ${count} lies on no roll`));
    }
    const repeated = [...copies].filter(([, often]) => often > 1).map(([copy]) => copy);
    if (repeated.length > 0) found.push(breach([id], `copy ${listed(repeated)} lies on the rolls more than once`));
    const unasked = [...copies.keys()].filter((copy) => copy < 1 || copy > count || !Number.isInteger(copy));
    if (unasked.length > 0) found.push(breach([id], `copy ${listed(unasked)} is not asked for: there are ${count}`));
  }
  return found;
};

/** A few numbers, and how many more. */
const listed = (numbers: readonly number[]): string =>
  numbers.slice(0, 5).join(", ") + (numbers.length > 5 ? ` and ${numbers.length - 5} more` : "");
