import { type Box, mirrorBox, mirrorX } from "../geometry/box.ts";
import type { Rules } from "../model/instance.ts";
import type { Panel, Seam, SeamKind } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { topOf } from "./laps.ts";
import type { Member } from "./members.ts";
import { directionOf } from "./orientation.ts";
import { isButted, type SeamLine } from "./seamRules.ts";
import type { SectionOption } from "./sectionOptions.ts";
import { type Border, mirroredSide, type PanelSection } from "./sections.ts";

/** A border and the least width that windows facing each other over it share. */
export interface RecordedBorder {
  readonly border: Border;
  readonly overlap: Ticks;
}

/**
 * The panels and seams of one elevation of a mirror group: the source's own windows, or their exact mirror image with
 * panels numbered left to right again, kinds and laps the elevation's own.
 *
 * @param picks one option for each section, in the order of `sections`
 * @returns panels and seams by section, each from left to right or bottom to top; borders last
 */
export function recordMember(
  member: Member,
  m: number,
  sections: readonly PanelSection[],
  picks: readonly SectionOption[],
  borders: readonly RecordedBorder[],
  rules: Rules,
): { panels: Panel[]; seams: Seam[] } {
  const { elevation, flipped } = member;
  const frame = elevation.box;
  const turn = (box: Box): Box => (flipped ? mirrorBox(box, frame) : box);
  const ids = sections.map((section) => (flipped ? mirroredId(section) : section.id));
  const panels: Panel[] = [];
  const seams: Seam[] = [];
  for (const [index, section] of sections.entries()) {
    const pick = picks[index] as SectionOption | undefined;
    if (pick === undefined || pick.windows.length === 0) continue;
    const sectionId = ids[index] as string;
    const backward = flipped && pick.axis === "x";
    const windows = backward ? pick.windows.toReversed() : pick.windows;
    const idOf = (number: number) => `${elevation.id}/${sectionId}/${number}`;
    for (const [i, { window, across, along }] of windows.entries()) {
      panels.push({
        id: idOf(i + 1),
        elevation: elevation.id,
        section: sectionId,
        role: section.role,
        film: section.film ?? elevation.film,
        direction: directionOf(pick.axis),
        window: turn(window),
        across,
        along,
        slack: null,
      });
    }
    const ends = backward ? pick.ends.toReversed() : pick.ends;
    let number = 0;
    for (const [i, { seam }] of ends.entries()) {
      if (seam === null) continue;
      const between: [string, string] = [idOf(i), idOf(i + 1)];
      const kind = seam.kinds[m] as SeamKind;
      const overlap = 2 * seam.half;
      number++;
      seams.push({
        id: `${elevation.id}/${sectionId}:${number}`,
        elevation: elevation.id,
        section: sectionId,
        ...turnLine(seam, flipped, frame),
        kind,
        overlap,
        finishedOverlap: finished(kind, overlap, isButted(member, [section.film]), rules),
        between,
        top: between[topOf(seam.axis, elevation.travel)] as string,
        border: false,
      });
    }
  }
  for (const { border, overlap } of borders) {
    const order = flipped && border.axis === "x" ? [border.high, border.low] : [border.low, border.high];
    const between = order.map((index) => ids[index]) as [string, string];
    const sides = order.map((index) => sections[index] as PanelSection);
    const roles = sides.map(({ role }) => role);
    const films = sides.map(({ film }) => film);
    // Panels lap over fills; between two of the same role the usual rule holds.
    const top = roles[0] === roles[1] ? topOf(border.axis, elevation.travel) : roles[0] === "panel" ? 0 : 1;
    const kind = border.kinds[m] as SeamKind;
    seams.push({
      id: `${elevation.id}/${between[0]}|${between[1]}`,
      elevation: elevation.id,
      section: null,
      ...turnLine(border, flipped, frame),
      kind,
      overlap,
      finishedOverlap: finished(kind, overlap, isButted(member, films), rules),
      between,
      top: between[top] as string,
      border: true,
    });
  }
  return { panels, seams };
}

function mirroredId({ id, role }: PanelSection): string {
  if (role === "panel") return id;
  return `fill-${mirroredSide(id.slice("fill-".length) as "left")}`;
}

function turnLine({ axis, at, from, to }: SeamLine, flipped: boolean, frame: Box): SeamLine {
  if (!flipped) return { axis, at, from, to };
  return axis === "x"
    ? { axis, at: mirrorX(at, frame), from, to }
    : { axis, at, from: mirrorX(to, frame), to: mirrorX(from, frame) };
}

/**
 * What is left once the films are trimmed: nothing in a gap or between films that meet edge to edge, the strip past a
 * colour edge, else all that is shared.
 */
function finished(kind: SeamKind, overlap: Ticks, butted: boolean, rules: Rules): Ticks {
  if (kind === "break" || butted) return 0;
  return kind === "colourEdge" ? rules.colourEdgeOverlap : overlap;
}
