import type { Axis, Box } from "../../core/geometry/box.ts";
import { neededRegion, type Region } from "../../core/geometry/region.ts";
import type { Direction, Elevation, Film, Instance } from "../../core/model/instance.ts";
import type { SeamKind } from "../../core/model/plan.ts";
import type { Ticks } from "../../core/units/ticks.ts";

/** One elevation as a shop splits it by eye; lengths in ticks, for one copy. */
export interface HandSplit {
  readonly direction: Direction;
  readonly rollWidth: Ticks;
  readonly panels: number;
  readonly seams: readonly { readonly at: Ticks; readonly kind: SeamKind }[];
  readonly openSeams: number;
  /** Roll width times the panels' length, square ticks. */
  readonly filmArea: number;
}

/**
 * What a shop does by eye: panels of the full printable width side by side from the end away from travel (the left or the
 * bottom where the front is to neither), the rest last, without a thought of breaks.
 *
 * A seam that would run into a zone where none may lie is pulled back, its panel made narrower, until it clears the zone;
 * one that would leave nothing but bleed for the last panel is pulled back onto the body. Fair to the hand: a seam that
 * happens to lie on a break, a body line or a colour edge counts as that though a break would ask for more overlap; bleed
 * round openings is not asked for; a seam where nothing needs film is no seam.
 *
 * @returns null where no such split is legal: a panel would be longer than a load, or a seam finds no place
 */
export function fullWidthByHand(
  instance: Instance,
  elevation: Elevation,
  rollWidth: Ticks,
  direction: Direction,
): HandSplit | null {
  const film = filmOf(instance, elevation);
  const axis: Axis = direction === "vertical" ? "x" : "y";
  const { box, bleed } = elevation;
  const body = axis === "x" ? { low: box.x0, high: box.x1 } : { low: box.y0, high: box.y1 };
  const [low, high] =
    axis === "x" ? [body.low - bleed.left, body.high + bleed.right] : [body.low - bleed.bottom, body.high + bleed.top];
  const across = Math.min(
    rollWidth - 2 * film.edgeMargin,
    film.laminateWidth ?? Infinity,
    ...elevation.sections.map(({ maxAcross }) => maxAcross ?? Infinity),
  );
  const half = film.joint === "butted" ? 0 : Math.ceil(instance.rules.overlap / 2);
  const region = neededRegion(
    elevation.outline,
    elevation.openings.map(({ outline }) => outline),
  );
  const never = [...elevation.keepClear.map((zone) => ({ ...zone, clearance: 0 })), ...elevation.obstacles].filter(
    ({ rule }) => rule === "never",
  );

  // Everything is counted from the end where the work begins, so that both ways of going are one.
  const fromHigh = axis === "x" ? elevation.travel === "left" : elevation.travel === "down";
  const way = fromHigh ? -1 : 1;
  const place = (gone: Ticks): Ticks => (fromHigh ? high - gone : low + gone);
  const whole = high - low;
  const bodyEnd = fromHigh ? high - body.low : body.high - low;

  const cuts: Ticks[] = [];
  for (let begun = 0; whole - begun > across; ) {
    let gone = Math.min(begun + across - half, bodyEnd - half - 1);
    for (let moved = true; moved; ) {
      moved = false;
      const at = place(gone);
      const run = neededOn(region, bandAt(axis, box, at, half), axis);
      for (const { box: drawn, clearance } of never) {
        const zone = along(drawn, axis, clearance);
        const clash = half === 0 ? at > zone.u0 && at < zone.u1 : at - half < zone.u1 && at + half > zone.u0;
        if (run === null || !clash || run.from >= zone.v1 || run.to <= zone.v0) continue;
        gone = (fromHigh ? high - zone.u1 : zone.u0 - low) - half;
        moved = true;
        break;
      }
    }
    // Nothing is left of the panel: by eye there is no way on.
    if (gone <= begun + half) return null;
    cuts.push(place(gone));
    begun = gone - half;
  }

  const edges = [place(0), ...cuts, place(whole)];
  let [panels, length] = [0, 0];
  for (let i = 0; i + 1 < edges.length; i++) {
    const [a, b] = [edges[i] as Ticks, edges[i + 1] as Ticks];
    const [from, to] = [Math.min(a, b), Math.max(a, b)];
    const run = neededOn(region, axis === "x" ? { ...box, x0: from, x1: to } : { ...box, y0: from, y1: to }, axis);
    if (run === null) continue;
    const panel = run.to - run.from + (axis === "x" ? bleed.bottom + bleed.top : bleed.left + bleed.right);
    if (panel > longestPanel(instance, film)) return null;
    panels++;
    length += panel;
  }
  const seams = (way === 1 ? cuts : cuts.toReversed()).flatMap((at) => {
    const line = region.line(axis, at, axis === "x" ? { from: box.y0, to: box.y1 } : { from: box.x0, to: box.x1 });
    const [first, last] = [line[0], line.at(-1)];
    return first && last ? [{ at, kind: kindOf(elevation, axis, at, first.from, last.to) }] : [];
  });
  const openSeams = seams.filter(({ kind }) => kind === "open").length;
  return { direction, rollWidth, panels, seams, openSeams, filmArea: length * rollWidth };
}

/** A job split by hand on one roll width: for each elevation the better direction, all copies counted. */
export interface HandJob {
  readonly rollWidth: Ticks;
  readonly openSeams: number;
  readonly filmArea: number;
  readonly splits: readonly HandSplit[];
}

/**
 * The best that full widths by hand can do for a job: for each elevation the better direction, on the best roll width for
 * all; fewest open seams first, then least film. Each side is split by itself, so mirrored ones need not match: a fair
 * opponent, since ours have to.
 *
 * @returns null where no roll width has a legal split of every elevation
 */
export function bestByHand(instance: Instance): HandJob | null {
  const films = new Set(instance.elevations.map(({ film }) => film));
  const widths = new Set(instance.films.filter(({ id }) => films.has(id)).flatMap(({ rollWidths }) => rollWidths));
  const jobs = [...widths].flatMap((rollWidth): HandJob[] => {
    const splits = instance.elevations.map((elevation) => {
      const { rollWidths } = filmOf(instance, elevation);
      const width = rollWidths.includes(rollWidth) ? rollWidth : (rollWidths.at(-1) as Ticks);
      const found = (["vertical", "horizontal"] as const).flatMap(
        (direction) => fullWidthByHand(instance, elevation, width, direction) ?? [],
      );
      return found.sort(fewestOpen)[0] ?? null;
    });
    if (splits.some((split) => split === null)) return [];
    const all = splits as HandSplit[];
    const sum = (value: (split: HandSplit) => number): number =>
      all.reduce((total, split, i) => total + value(split) * (instance.elevations[i]?.count ?? 1), 0);
    return [{ rollWidth, openSeams: sum((s) => s.openSeams), filmArea: sum((s) => s.filmArea), splits: all }];
  });
  return jobs.sort(fewestOpen)[0] ?? null;
}

const fewestOpen = (
  a: { readonly openSeams: number; readonly filmArea: number },
  b: { readonly openSeams: number; readonly filmArea: number },
): number => a.openSeams - b.openSeams || a.filmArea - b.filmArea;

function filmOf(instance: Instance, elevation: Elevation): Film {
  const film = instance.films.find(({ id }) => id === elevation.film);
  if (film === undefined) throw new Error(`no film ${elevation.film}`);
  return film;
}

const longestPanel = ({ rules }: Instance, film: Film): Ticks =>
  Math.min(film.rollLength ?? Infinity, film.maxRun ?? Infinity) - rules.leader - rules.trailer;

/** A box grown on every side, across (u) and along (v) a line of that axis. */
const along = ({ x0, y0, x1, y1 }: Box, axis: Axis, by: Ticks) =>
  axis === "x"
    ? { u0: x0 - by, u1: x1 + by, v0: y0 - by, v1: y1 + by }
    : { u0: y0 - by, u1: y1 + by, v0: x0 - by, v1: x1 + by };

/** What two panels share at a seam, over the whole elevation; a line is widened to the ticks beside it. */
const bandAt = (axis: Axis, box: Box, at: Ticks, half: Ticks): Box => {
  const reach = Math.max(half, 1);
  return axis === "x" ? { ...box, x0: at - reach, x1: at + reach } : { ...box, y0: at - reach, y1: at + reach };
};

/** Lowest and highest needed place of a box, along lines of that axis. */
function neededOn(region: Region, box: Box, axis: Axis): { from: Ticks; to: Ticks } | null {
  const extent = region.extent(box);
  if (extent === null) return null;
  return axis === "x" ? { from: extent.y0, to: extent.y1 } : { from: extent.x0, to: extent.x1 };
}

function kindOf({ breaks, colourEdges }: Elevation, axis: Axis, at: Ticks, from: Ticks, to: Ticks): SeamKind {
  const spans = (line: { axis: Axis; at: Ticks; from: Ticks; to: Ticks }): boolean =>
    line.axis === axis && line.at === at && line.from <= from && line.to >= to;
  const hiding = breaks.filter(spans);
  if (hiding.some(({ type }) => type !== "bodyLine")) return "break";
  if (hiding.length > 0) return "bodyLine";
  return colourEdges.some(spans) ? "colourEdge" : "open";
}
