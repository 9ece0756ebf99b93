import { formatArea, formatMoney } from "../../core/index.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import { gapFigure } from "../../shared/standing.ts";
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

export const directionWords = { vertical: "vertical", horizontal: "horizontal" } as const;

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

/** What a layout was worked out for, by the words that the engine puts into its id. */
const aimWords: Readonly<Record<string, string>> = {
  "low cost": "for lowest cost",
  "least film": "for least film",
  "least print": "for least printing",
  "fewest seams": "for fewest seams",
  "hidden seams": "for hidden seams",
};

/** How a layout's seams were chosen, as far as its id says: what is left of it without width and direction. */
export function layoutWay({ id }: PlanLayout): string {
  const rest = id
    .replace(/^[\d.]+ ?(in|mm)-?/, "")
    .replace(/^(vertical|horizontal)(-|$)/, "")
    .replaceAll("-", " ");
  return aimWords[rest] ?? rest;
}

/** A step of the search in words: the engine names a layout by an id such as `54in-horizontal`. */
export const stepWords = (what: string): string =>
  what
    .replace(/^([\d.]+) ?(in|mm)\b/, "$1 $2")
    .replace(/^([\d.]+ (?:in|mm))-(vertical|horizontal)/, "$1, $2")
    .replace(/^(\d\S* (?:in|mm)(?:, \w+)?)-(.*)$/, (_, head: string, aim: string) => {
      const words = aim.replaceAll("-", " ");
      return `${head}, ${aimWords[words] ?? words}`;
    });

/** The gap in words. It is a share of this layout's own cost, so it tells what could be saved, not what was overspent. */
export function gapWords(bound: Pick<PlanLayout["bound"], "proven" | "gapPercent">): string {
  return bound.proven ? "proven least cost" : `at most ${gapFigure(bound.gapPercent)} % could be saved`;
}

/** The bound in a full sentence: what it holds for, what it is worth, how it was found. */
export function boundWords(layout: PlanLayout, unit: Unit, currency: string): string {
  const { bound, rollWidth, nesting } = layout;
  const roll = rollWidth === null ? "these rolls" : `a ${lengthWithUnit(rollWidth, unit)} roll`;
  const seams = seamCountOf(layout);
  const few = seams === 0 ? "without seams seen" : `with at most ${counted(seams, "seam")} seen`;
  const kind = `plan on ${roll}${nesting === "free" ? ", nested freely," : ""} ${few}`;
  const by = bound.by === "" ? "" : ` Reckoned from: ${bound.by}.`;
  return bound.proven
    ? `Proven: no ${kind} costs less.${by}`
    : `No ${kind} costs less than ${money(bound.cost, currency)}, so ${gapWords(bound)}.${by}`;
}

/** What the engine says in a few words, as a sentence of its own. */
export function asSentence(text: string): string {
  const bare = text.trim();
  const full = bare.charAt(0).toUpperCase() + bare.slice(1);
  return /[.!?]$/.test(full) || full === "" ? full : `${full}.`;
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
    sameLot: "one lot",
    holds: "hold",
    heightZones: "height zone",
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
