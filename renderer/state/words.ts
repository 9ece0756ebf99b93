import { formatArea, formatMoney } from "../../core/index.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import { showLength } from "./lengths.ts";
import { stepsOf } from "./path.ts";

/** Words and figures for people: plain trade words, every number with its unit. */

export type Unit = "in" | "mm";

const grouped = (digits: number): Intl.NumberFormat =>
  new Intl.NumberFormat("en", { minimumFractionDigits: digits, maximumFractionDigits: digits });

export const money = formatMoney;

export const percent = (share: number, digits = 1): string => `${grouped(digits).format(share)} %`;

export const area = formatArea;

export const lengthWithUnit = (value: number, unit: Unit): string => `${showLength(value, unit)} ${unit}`;

export const seconds = (value: number): string => `${grouped(1).format(value)} s`;

export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count.toLocaleString("en")} ${count === 1 ? one : many}`;

export const seamCountOf = (layout: PlanLayout): number =>
  layout.totals.openSeams + layout.totals.bodyLineSeams + layout.totals.colourEdgeSeams;

const directionWords = { vertical: "upright", horizontal: "lengthwise" } as const;

/** What tells a layout from the others: its roll width, the way its panels run, how its pieces are cut. */
export function layoutTitle(layout: PlanLayout, unit: Unit): string {
  const ways = new Set(layout.panels.filter(({ role }) => role === "panel").map(({ direction }) => direction));
  const way = ways.size === 2 ? "both ways" : ways.size === 1 ? directionWords[[...ways][0] ?? "vertical"] : null;
  const widths = [...new Set(layout.rolls.map(({ width }) => width))].sort((a, b) => a - b);
  const width =
    layout.rollWidth === null
      ? widths.map((one) => showLength(one, unit)).join(" and ")
      : showLength(layout.rollWidth, unit);
  return [`${width} ${unit}`, way, layout.nesting === "free" ? "nested freely" : null].filter(Boolean).join(", ");
}

/** How a layout's seams were chosen, as far as its id says: what is left of it without width and direction. */
export const layoutWay = ({ id }: PlanLayout): string =>
  id
    .replace(/^[\d.]+ ?(in|mm)-?/, "")
    .replace(/^(vertical|horizontal)(-|$)/, "")
    .replaceAll("-", " ");

/** One sentence of the gap: how far the cost may be from the least possible. */
export function gapWords(bound: PlanLayout["bound"]): string {
  return bound.proven ? "proven least cost" : `at most ${percent(bound.gapPercent)} above the least possible`;
}

export const kindWords = {
  break: "in a break",
  bodyLine: "on a body line",
  colourEdge: "along a colour edge",
  open: "open",
} as const;

/**
 * A problem's place in words: `elevations[0].keepClear[1].box` is "Elevation Left side, keep-clear COUNTY, box". What has
 * no name of its own goes by its number.
 */
export function placeWords(path: string, job: unknown = null): string {
  const nouns: Record<string, string> = {
    elevations: "elevation",
    keepClear: "keep-clear",
    breaks: "break",
    colourEdges: "colour edge",
    obstacles: "obstacle",
    openings: "opening",
    sections: "section",
    pieces: "piece",
    films: "film",
    stock: "stock",
    rollWidths: "roll width",
    fill: "fill",
    outline: "outline",
    rules: "rules",
  };
  const plain = (key: string): string => nouns[key] ?? key.replace(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
  const words: string[] = [];
  let here = job;
  for (const step of stepsOf(path)) {
    here = typeof here === "object" && here !== null ? (here as Record<string | number, unknown>)[step] : undefined;
    if (typeof step === "string") words.push(plain(step));
    else words.push(`${words.pop() ?? ""} ${nameOf(here) ?? step + 1}`.trim());
  }
  const text = words.join(", ");
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What an entry of the job is called on the sheet; null for what has no name. */
function nameOf(entry: unknown): string | null {
  if (typeof entry !== "object" || entry === null) return null;
  const { name, label, id } = entry as Record<string, unknown>;
  const called = [name, label, id].find((one) => typeof one === "string" && one !== "");
  return typeof called === "string" ? called : null;
}

/** A warning of the reader and of the plan in one form. */
export const problemKey = (problem: Problem, place: number): string => `${place} ${problem.path} ${problem.why}`;
