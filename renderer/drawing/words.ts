import { formatMoney } from "./fromCore.ts";
import { figure, lengthText, type Ticks, ticksFrom, type Unit } from "./lengths.ts";
import type {
  Break,
  KeepClear,
  Obstacle,
  PlanCut,
  PlanLayout,
  PlanPanel,
  PlanPiece,
  PlanRoll,
  PlanSeam,
} from "./model.ts";
import { kindWords } from "./strokes.ts";

/** Full sentences for people who hear a drawing, and the same as hints for those who point at it. */

const spoken = (value: number, unit: Unit): string => lengthText(ticksFrom(value, unit), unit);

/** "52 1/2 × 51 1/2 in" */
export const sizeText = (across: number, along: number, unit: Unit): string =>
  `${figure(ticksFrom(across, unit), unit)} × ${lengthText(ticksFrom(along, unit), unit)}`;

const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** The panels or sections that lie under and over a panel, by the seams it takes part in. */
export function laps(panel: PlanPanel, seams: readonly PlanSeam[]): { over: string[]; under: string[] } {
  const over: string[] = [];
  const under: string[] = [];
  for (const seam of seams) {
    if (seam.elevation !== panel.elevation) continue;
    const self = seam.border ? panel.section : panel.id;
    if (!seam.between.includes(self)) continue;
    const other = seam.between[0] === self ? seam.between[1] : seam.between[0];
    const name = seam.border ? `section ${other}` : other;
    (seam.top === self ? over : under).push(name);
  }
  return { over, under };
}

export function panelSentence(panel: PlanPanel, seams: readonly PlanSeam[], unit: Unit): string {
  const { over, under } = laps(panel, seams);
  return [
    `${panel.role === "fill" ? "Fill piece" : "Panel"} ${panel.id}`,
    `${spoken(panel.across, unit)} across`,
    `${spoken(panel.along, unit)} along`,
    ...(over.length > 0 ? [`laps over ${listed(over)}`] : []),
    ...(under.length > 0 ? [`lies under ${listed(under)}`] : []),
  ].join(", ");
}

/** The id of a seam with its elevation, where it does not begin with that itself. */
const fullId = ({ id, elevation }: PlanSeam): string => (id.startsWith(`${elevation}/`) ? id : `${elevation}/${id}`);

export function seamSentence(seam: PlanSeam, unit: Unit): string {
  return [
    `${seam.border ? "Border seam" : "Seam"} ${fullId(seam)}`,
    kindWords[seam.kind],
    `${seam.axis === "x" ? "upright" : "level"} at ${spoken(seam.at, unit)}`,
    `from ${spoken(seam.from, unit)} to ${spoken(seam.to, unit)}`,
    `overlap ${spoken(seam.overlap, unit)}`,
    `${seam.border ? `section ${seam.top}` : seam.top} on top`,
  ].join(", ");
}

const place = (box: { x0: Ticks; y0: Ticks; x1: Ticks; y1: Ticks }, unit: Unit): string =>
  `from ${lengthText(box.x0, unit)} to ${lengthText(box.x1, unit)} across and ${lengthText(box.y0, unit)} to ${lengthText(box.y1, unit)} up`;

const ruleWords = { never: "no seam allowed", avoid: "seams are better elsewhere" } as const;

export const zoneSentence = (zone: KeepClear, unit: Unit): string =>
  `Keep-clear zone ${zone.label || zone.id}, ${zone.reason}, ${ruleWords[zone.rule]}, ${place(zone.box, unit)}`;

export const obstacleSentence = (obstacle: Obstacle, unit: Unit): string =>
  `Obstacle ${obstacle.id}, ${obstacle.kind}, ${ruleWords[obstacle.rule]}, ${place(obstacle.box, unit)}`;

const breakWords = { gap: "Gap", moulding: "Moulding", bodyLine: "Body line" } as const;

export const breakHint = (mark: Break, unit: Unit): string =>
  `${breakWords[mark.type]} ${mark.id} at ${lengthText(mark.at, unit)}, no seam on it`;

const turnWords = { 0: "not turned", 90: "turned 90°", 180: "turned head to foot", 270: "turned 270°" } as const;

export function pieceSentence(piece: PlanPiece, cut: PlanCut, load: PlanRoll, cutNumber: number, unit: Unit): string {
  const start = cut.start + piece.y;
  return [
    `Piece ${piece.id}, copy ${piece.copy}`,
    `${spoken(piece.across, unit)} across`,
    `${spoken(piece.along, unit)} along`,
    turnWords[piece.turn],
    `load ${load.id}, cut ${cutNumber}`,
    `counter ${spoken(start, unit)} to ${spoken(start + piece.along, unit)}`,
  ].join(", ");
}

export function cutSentence(cut: PlanCut, load: PlanRoll, cutNumber: number, unit: Unit): string {
  const many = cut.pieces.length === 1 ? "1 piece" : `${cut.pieces.length} pieces`;
  return `Cut ${cutNumber} of load ${load.id}, ${spoken(cut.length, unit)} long, counter ${spoken(cut.start, unit)} to ${spoken(cut.start + cut.length, unit)}, ${many}`;
}

export const percent = (value: number): string => `${Math.round(value * 10) / 10} %`;

export const visibleSeams = ({ totals }: PlanLayout): number =>
  totals.openSeams + totals.bodyLineSeams + totals.colourEdgeSeams;

const plural = (count: number, word: string): string => `${count} ${word}${count === 1 ? "" : "s"}`;

export function layoutSentence(
  layout: PlanLayout,
  standing: { readonly chosen: boolean; readonly onFrontier: boolean },
  currency: string,
  unit: Unit,
): string {
  const width = layout.rollWidth === null ? "mixed roll widths" : `${spoken(layout.rollWidth, unit)} roll`;
  return [
    `Layout ${layout.id}`,
    width,
    plural(visibleSeams(layout), "visible seam"),
    `${percent(layout.totals.wastePercent)} of the film wasted`,
    `of it ${percent(layout.wasteBy.gapsAndVoids)} in gaps between pieces`,
    `cost ${formatMoney(layout.totals.cost.total, currency)}`,
    standing.chosen ? "chosen" : standing.onFrontier ? "beaten by no other" : "beaten by another layout",
  ].join(", ");
}
