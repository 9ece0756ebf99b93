import type { Box, Polygon } from "../../../core/geometry/box.ts";
import type { ColourEdge, Elevation, Rules } from "../../../core/model/instance.ts";

/**
 * Every split of one section, by trying all subsets of the given places. The rules of panels and seams are worked out
 * again here from points, columns and rows, with nothing of the engine: slow and plain.
 *
 * Vertical panels only; a horizontal split is asked for by handing everything over with x and y exchanged.
 */

export interface BruteSection {
  /** The elevation and its mirrors, each in its own frame; the first is the source, `flipped` by reflection in its box. */
  readonly members: readonly { readonly elevation: Elevation; readonly flipped: boolean }[];
  /** Section box in the source's frame. */
  readonly box: Box;
  readonly rules: Rules;
  readonly places: readonly number[];
  readonly maxAcross: number;
  readonly maxAlong: number;
  /** Names of the sides, for bleed: across low, across high, along low, along high. */
  readonly sides: readonly ["left" | "bottom", "right" | "top", "left" | "bottom", "right" | "top"];
  /** What lies past each side of the box where film goes on: half the overlap of that border. */
  readonly borderHalf: number;
  readonly price: (across: number, along: number) => number;
  /** Per tick of what seams count as, on all copies. */
  readonly seamPrice: number;
  /** Whether the films of all members meet edge to edge. */
  readonly butted: boolean;
  /** Most open seams on one copy of each member; null: no limit. */
  readonly openLimit: number | null;
}

export interface BruteSplit {
  readonly price: number;
  readonly visible: number;
  readonly penalties: number;
  readonly open: readonly number[];
  readonly at: readonly number[];
}

interface Stretch {
  readonly low: number;
  readonly high: number;
  readonly lowEnd: readonly ("outline" | "opening" | "beyond")[];
  readonly highEnd: readonly ("outline" | "opening" | "beyond")[];
}

const NUDGE = 1e-3;

const inside = (polygon: Polygon, x: number, y: number): boolean => {
  let odd = false;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] as { x: number; y: number };
    if (a.x > x !== b.x > x && y < a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y)) odd = !odd;
  });
  return odd;
};

const swap = (polygon: Polygon): Polygon => polygon.map(({ x, y }) => ({ x: y, y: x }));

/** Needed stretches of the column just left (-1) or right (1) of x, cut to [v0, v1]. */
function column(
  outline: Polygon,
  openings: readonly Polygon[],
  x: number,
  side: -1 | 1,
  v0: number,
  v1: number,
): Stretch[] {
  const near = x + side * NUDGE;
  const crossings: { at: number; exact: number }[] = [];
  for (const ring of [outline, ...openings]) {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length] as { x: number; y: number };
      if (a.x > near === b.x > near) return;
      const on = (u: number) => (a.y === b.y ? a.y : a.y + ((u - a.x) / (b.x - a.x)) * (b.y - a.y));
      crossings.push({ at: on(near), exact: on(x) });
    });
  }
  crossings.sort((a, b) => a.at - b.at);
  const levels: { at: number; exact: number }[] = [];
  for (const c of crossings)
    if (levels.length === 0 || c.at - (levels.at(-1) as { at: number }).at > 1e-7) levels.push(c);
  const state = (y: number) => ({
    in: inside(outline, near, y),
    covered: openings.some((opening) => inside(opening, near, y)),
  });
  const stretches: Stretch[] = [];
  let low: { near: number; exact: number; end: ("outline" | "opening")[] } | null = null;
  levels.forEach((level, i) => {
    const below = state(i === 0 ? level.at - 1 : (level.at + (levels[i - 1] as { at: number }).at) / 2);
    const above = state(i + 1 === levels.length ? level.at + 1 : (level.at + (levels[i + 1] as { at: number }).at) / 2);
    const end: ("outline" | "opening")[] = [];
    if (below.in !== above.in) end.push("outline");
    if (below.covered !== above.covered) end.push("opening");
    const [was, is] = [below.in && !below.covered, above.in && !above.covered];
    if (!was && is) low = { near: level.at, exact: level.exact, end };
    if (was && !is && low !== null) {
      const [from, to] = [Math.max(low.exact, v0), Math.min(level.exact, v1)];
      // Cut by what is there just beside the line: a stretch outside the box there is none, even if it touches the line.
      if (Math.min(level.at, v1) > Math.max(low.near, v0) && from <= to) {
        stretches.push({
          low: from,
          high: to,
          lowEnd: low.near < v0 ? ["beyond"] : low.end,
          highEnd: level.at > v1 ? ["beyond"] : end,
        });
      }
      low = null;
    }
  });
  return stretches;
}

/** Every x at which something of the shape may turn, within [u0, u1], both ends included. */
function turns(
  outline: Polygon,
  openings: readonly Polygon[],
  u0: number,
  u1: number,
  v0: number,
  v1: number,
): number[] {
  const found = [u0, u1];
  const edges = [outline, ...openings].flatMap((ring) =>
    ring.map((a, i) => [a, ring[(i + 1) % ring.length] as { x: number; y: number }] as const),
  );
  for (const [a, b] of edges) {
    found.push(a.x);
    for (const v of [v0, v1]) if (a.y !== b.y) found.push(a.x + ((v - a.y) / (b.y - a.y)) * (b.x - a.x));
    for (const [c, d] of edges) {
      const cross = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
      if (cross !== 0)
        found.push(a.x + (((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / cross) * (b.x - a.x));
    }
  }
  return [...new Set(found)].filter((x) => x >= u0 && x <= u1);
}

/** Farthest that windows must reach toward low or high v over the columns from u0 to u1. */
function reach(
  outline: Polygon,
  openings: readonly Polygon[],
  [u0, u1]: readonly [number, number],
  [v0, v1]: readonly [number, number],
  bleeds: readonly [number, number, number],
  borderHalf: number,
  limits: readonly [number, number],
): readonly [number, number] | null {
  let [low, high] = [Infinity, -Infinity];
  for (const x of turns(outline, openings, u0, u1, v0, v1)) {
    for (const side of [-1, 1] as const) {
      if ((side === -1 && x <= limits[0]) || (side === 1 && x >= limits[1])) continue;
      for (const stretch of column(outline, openings, x, side, v0, v1)) {
        for (const end of stretch.lowEnd) {
          low = Math.min(
            low,
            stretch.low - (end === "outline" ? bleeds[0] : end === "opening" ? bleeds[2] : borderHalf),
          );
        }
        for (const end of stretch.highEnd) {
          high = Math.max(
            high,
            stretch.high + (end === "outline" ? bleeds[1] : end === "opening" ? bleeds[2] : borderHalf),
          );
        }
      }
    }
  }
  return low === Infinity ? null : [Math.floor(low + 1e-5), Math.ceil(high - 1e-5)];
}

/** How far a colour edge strays from its place between two heights, rounded up: read off at every corner and both ends. */
function strayOf({ at, path }: ColourEdge, from: number, to: number): number {
  if (path === null) return 0;
  const heights = [from, to, ...path.map(({ y }) => y).filter((y) => y >= from && y <= to)];
  const places = heights.flatMap((y) =>
    path.slice(1).flatMap((b, i) => {
      const a = path[i] as { x: number; y: number };
      if (y < a.y || y > b.y) return [];
      return a.y === b.y ? [a.x, b.x] : [a.x + ((y - a.y) * (b.x - a.x)) / (b.y - a.y)];
    }),
  );
  return Math.ceil(Math.max(...places.map((x) => Math.abs(x - at))) - 1e-5);
}

/** What an upright line counts as over these stretches, in an elevation's own frame: cell by cell, height by height. */
function countedLength(
  { ground, seamMap }: Elevation,
  rules: Rules,
  at: number,
  stretches: [number, number][],
): number {
  const heights = rules.heightZones.flatMap(({ from, to }) => [ground + from, ground + to]);
  const rows =
    seamMap === null ? [] : Array.from({ length: seamMap.rows + 1 }, (_, i) => seamMap.y0 + i * seamMap.cell);
  let sum = 0;
  for (const [low, high] of stretches) {
    const cuts = [low, high, ...heights, ...rows].filter((y) => y >= low && y <= high).sort((a, b) => a - b);
    cuts.slice(1).forEach((to, i) => {
      const from = cuts[i] as number;
      const y = (from + to) / 2;
      const zone = rules.heightZones.find((one) => one.from <= y - ground && y - ground < one.to);
      let value = 0;
      if (seamMap !== null) {
        const column = Math.floor((at - seamMap.x0) / seamMap.cell);
        const row = Math.floor((y - seamMap.y0) / seamMap.cell);
        if (column >= 0 && column < seamMap.columns && row >= 0 && row < seamMap.rows) {
          value = seamMap.upright[row * seamMap.columns + column] as number;
        }
      }
      sum += (to - from) * (zone?.weight ?? 1) * (1 + (rules.artworkWeight * value) / 255);
    });
  }
  return Math.round(sum);
}

/** Stretches of both sides of a line together, ends rounded outward. */
function joined(stretches: readonly Stretch[]): [number, number][] {
  const whole: [number, number][] = [];
  for (const { low, high } of [...stretches].sort((a, b) => a.low - b.low)) {
    const [from, to] = [Math.floor(low + 1e-5), Math.ceil(high - 1e-5)];
    const last = whole.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else whole.push([from, to]);
  }
  return whole;
}

/** All splits by subsets of the places, and of them those that no other beats. */
export function bruteForce(given: BruteSection): BruteSplit[] {
  const { members, box, rules, places, maxAcross, maxAlong, sides, borderHalf, price, openLimit, butted, seamPrice } =
    given;
  const source = (members[0] as { elevation: Elevation }).elevation;
  const outline = source.outline;
  const openings = source.openings.map((opening) => opening.outline);
  const bleed = source.bleed;
  const frame = source.box;
  const { x0: u0, x1: u1, y0: v0, y1: v1 } = box;
  const alongBleed = [bleed[sides[2]], bleed[sides[3]], bleed.openings] as const;
  const acrossBleed = [bleed[sides[0]], bleed[sides[1]], bleed.openings] as const;

  // Ranges of x with anything needed over the section's height.
  const marks = turns(outline, openings, u0, u1, v0, v1).sort((a, b) => a - b);
  const parts: { from: number; to: number }[] = [];
  for (let i = 0; i + 1 < marks.length; i++) {
    const [from, to] = [marks[i] as number, marks[i + 1] as number];
    if (to - from < 0.01) continue;
    if (!column(outline, openings, (from + to) / 2, 1, v0, v1).some(({ low, high }) => high - low > 1e-6)) continue;
    const last = parts.at(-1);
    if (last !== undefined && Math.floor(from) <= last.to) last.to = Math.ceil(to);
    else parts.push({ from: Math.floor(from), to: Math.ceil(to) });
  }
  if (parts.length === 0) return [];
  const acrossReach = (from: number, to: number) =>
    reach(swap(outline), openings.map(swap), [v0, v1], [from, to], acrossBleed, borderHalf, [v0, v1]) as [
      number,
      number,
    ];
  const whole = acrossReach(u0, u1);
  const beforeGap = parts.map(({ from, to }, i) => (i + 1 === parts.length ? whole[1] : acrossReach(from, to)[1]));
  const afterGap = parts.map(({ from, to }, i) => (i === 0 ? whole[0] : acrossReach(from, to)[0]));

  const panel = new Map<string, number | null>();
  const alongOf = (lo: number, hi: number): number | null => {
    const key = `${lo}:${hi}`;
    const known = panel.get(key);
    if (known !== undefined) return known;
    const [from, to] = [Math.max(lo, u0), Math.min(hi, u1)];
    const covers = from < to && parts.some((part) => Math.min(to, part.to) > Math.max(from, part.from));
    const ends = covers ? reach(outline, openings, [from, to], [v0, v1], alongBleed, borderHalf, [u0, u1]) : null;
    const along = ends === null ? null : ends[1] - ends[0];
    panel.set(key, along);
    return along;
  };

  /** A seam in the source's frame, or why there is none. */
  const judge = (at: number) => {
    const stretches = ([-1, 1] as const)
      .flatMap((side) => column(outline, openings, at, side, v0, v1))
      .filter(({ low, high }) => Math.ceil(high - 1e-5) > Math.floor(low + 1e-5));
    if (stretches.length === 0) return null;
    const from = Math.floor(Math.min(...stretches.map(({ low }) => low)) + 1e-5);
    const to = Math.ceil(Math.max(...stretches.map(({ high }) => high)) - 1e-5);
    const kinds = members.map(({ elevation, flipped }) => {
      const own = flipped ? frame.x0 + frame.x1 - at : at;
      const spans = (line: { axis: string; at: number; from: number; to: number }) =>
        line.axis === "x" && line.at === own && line.from <= from && line.to >= to;
      const cuts = elevation.breaks.filter((line) => spans(line) && line.type !== "bodyLine");
      const must = elevation.breaks.some((line) => spans(line) && line.mustSplit);
      if (cuts.length > 0) {
        return { kind: "break", least: Math.max(rules.trimOverlap, ...cuts.map(({ width }) => width)), must };
      }
      const usual = butted ? 0 : rules.overlap;
      if (elevation.breaks.some(spans)) return { kind: "bodyLine", least: usual, must };
      const edges = elevation.colourEdges.filter(spans);
      if (edges.length === 0) return { kind: "open", least: usual, must };
      const stray = Math.min(...edges.map((edge) => strayOf(edge, from, to)));
      const trimmed = stray === 0 ? 0 : 2 * stray + (butted ? 0 : rules.colourEdgeOverlap);
      return { kind: "colourEdge", least: Math.max(usual, trimmed), must };
    });
    const half = Math.max(...kinds.map(({ least }) => Math.ceil(least / 2)));
    // The shared band from its lowest to its highest needed point.
    let [bandLow, bandHigh] = [Infinity, -Infinity];
    const [left, right] = [Math.max(u0, at - half), Math.min(u1, at + half)];
    for (const x of turns(outline, openings, left, right, v0, v1)) {
      for (const side of [-1, 1] as const) {
        if ((side === -1 && x <= left) || (side === 1 && x >= right)) continue;
        for (const { low, high } of column(outline, openings, x, side, v0, v1)) {
          bandLow = Math.min(bandLow, low);
          bandHigh = Math.max(bandHigh, high);
        }
      }
    }
    if (half === 0) [bandLow, bandHigh] = [from, to];
    let [visible, penalties, counted, forbidden] = [0, 0, 0, false];
    members.forEach(({ elevation, flipped }, m) => {
      const { kind } = kinds[m] as { kind: string };
      if (kind !== "break") {
        visible += elevation.count;
        const own = flipped ? frame.x0 + frame.x1 - at : at;
        counted += elevation.count * countedLength(elevation, rules, own, joined(stretches));
      }
      const zones = [
        ...elevation.keepClear,
        ...elevation.obstacles.map(({ box: b, clearance: c, rule }) => ({
          rule,
          box: { x0: b.x0 - c, y0: b.y0 - c, x1: b.x1 + c, y1: b.y1 + c },
        })),
      ];
      for (const zone of zones) {
        const z = flipped
          ? { ...zone.box, x0: frame.x0 + frame.x1 - zone.box.x1, x1: frame.x0 + frame.x1 - zone.box.x0 }
          : zone.box;
        const clash =
          kind === "break"
            ? at > z.x0 && at < z.x1 && from < z.y1 && to > z.y0
            : at - half < z.x1 &&
              at + half > z.x0 &&
              Math.floor(bandLow + 1e-5) < z.y1 &&
              Math.ceil(bandHigh - 1e-5) > z.y0;
        if (clash && zone.rule === "never") forbidden = true;
        if (clash && zone.rule === "avoid") penalties += elevation.count;
      }
    });
    return { at, half, visible, penalties, counted, forbidden, kinds, must: kinds.some(({ must }) => must) };
  };

  type Node = { at: number; lo: number; hi: number; seam: NonNullable<ReturnType<typeof judge>> | null };
  const seams = places.flatMap((at) => judge(at) ?? []);
  const breakPlaces = members.flatMap(({ elevation, flipped }) =>
    elevation.breaks.filter(({ axis }) => axis === "x").map(({ at }) => (flipped ? frame.x0 + frame.x1 - at : at)),
  );
  const demanded = new Set(breakPlaces.filter((at) => at > u0 && at < u1 && judge(at)?.must === true));
  const optional: Node[] = [
    ...seams
      .filter(({ forbidden }) => !forbidden)
      .map((seam): Node => ({ at: seam.at, lo: seam.at - seam.half, hi: seam.at + seam.half, seam })),
    ...parts.slice(1).map(
      (part, i): Node => ({
        at: (part.from + (parts[i] as { to: number }).to) / 2,
        lo: afterGap[i + 1] as number,
        hi: beforeGap[i] as number,
        seam: null,
      }),
    ),
  ].sort((a, b) => a.at - b.at);
  const splits: BruteSplit[] = [];
  type End = Pick<Node, "lo" | "hi" | "seam">;
  const walk = (i: number, start: End, sum: Omit<BruteSplit, "at">, at: number[], met: number) => {
    const close = (end: End): number | null => {
      // A window begins no later than the next and ends no earlier than the one before; at a seam nothing may give.
      if ((end.lo < start.lo && start.seam !== null) || (start.hi > end.hi && end.seam !== null)) return null;
      const [lo, hi] = [Math.min(start.lo, end.lo), Math.max(start.hi, end.hi)];
      if (hi - lo > maxAcross || hi <= lo) return null;
      const along = alongOf(lo, hi);
      if (along === null || along > maxAlong) return null;
      return sum.price + price(hi - lo, along) + seamPrice * (end.seam?.counted ?? 0);
    };
    if (i === optional.length) {
      const last = beforeGap.at(-1) as number;
      const total = close({ lo: last, hi: last, seam: null });
      if (total !== null && met === demanded.size) splits.push({ ...sum, price: total, at });
      return;
    }
    walk(i + 1, start, sum, at, met);
    const node = optional[i] as Node;
    const total = close(node);
    if (total === null) return;
    const { seam } = node;
    const open = sum.open.map((count, m) => count + (seam?.kinds[m]?.kind === "open" ? 1 : 0));
    if (openLimit !== null && open.some((count) => count > openLimit)) return;
    const next = {
      price: total,
      visible: sum.visible + (seam?.visible ?? 0),
      penalties: sum.penalties + (seam?.penalties ?? 0),
      open,
    };
    walk(i + 1, node, next, [...at, node.at], met + (seam !== null && demanded.has(seam.at) ? 1 : 0));
  };
  walk(
    0,
    { lo: whole[0], hi: whole[0], seam: null },
    { price: 0, visible: 0, penalties: 0, open: members.map(() => 0) },
    [],
    0,
  );
  return splits.filter((split) => !splits.some((other) => beats(other, split, openLimit !== null)));
}

/** Strictly better on one criterion and worse on none. */
function beats(a: BruteSplit, b: BruteSplit, withOpen: boolean): boolean {
  const pairs = [
    [a.price, b.price],
    [a.visible, b.visible],
    [a.penalties, b.penalties],
    ...(withOpen ? a.open.map((count, m) => [count, b.open[m] as number]) : []),
  ] as [number, number][];
  return pairs.every(([x, y]) => x <= y) && pairs.some(([x, y]) => x < y);
}
