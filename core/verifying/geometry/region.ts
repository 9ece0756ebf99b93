import type { Axis, Box, Interval, Polygon } from "../../geometry/box.ts";

/**
 * What is needed of an elevation (outline less openings), cut across at every corner and crossing, so that between two
 * neighbouring cuts only straight edges remain. The verifier's own, so that no mistake can hide on both sides.
 *
 * u runs along the axis on which the region is cut, v along the other.
 */
export interface Region {
  readonly slabs: Readonly<Record<Axis, readonly Slab[]>>;
}

interface Slab {
  readonly from: number;
  readonly to: number;
  readonly stretches: readonly { readonly low: End; readonly high: End }[];
}

/** Where film ends: on which edge, and whether that is the outline, an opening or both at once. */
interface End {
  readonly edge: Edge;
  readonly outline: boolean;
  readonly opening: boolean;
}

interface Edge {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
  /** 0 the outline, from 1 the openings. */
  readonly polygon: number;
}

/** A piece of needed region between u = from and u = to; null ends are where the box cuts it and film goes on. */
export interface Trapezoid {
  readonly from: number;
  readonly to: number;
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
  readonly lowEnd: { readonly outline: boolean; readonly opening: boolean } | null;
  readonly highEnd: { readonly outline: boolean; readonly opening: boolean } | null;
}

/** Places nearer than this are one place; far below a tick, far above the error of a division. Ticks. */
export const SAME_PLACE = 1e-5;

/** @returns the region; time O(n·m + n·k) for n edges, m edges of openings and k edges abreast */
export function regionOf(outline: Polygon, openings: readonly Polygon[]): Region {
  const polygons = [outline, ...openings];
  return { slabs: { x: slabsAlong("x", polygons), y: slabsAlong("y", polygons) } };
}

function slabsAlong(axis: Axis, polygons: readonly Polygon[]): Slab[] {
  const edges = polygons.flatMap((polygon, index) => edgesOf(axis, polygon, index));
  const cuts = cutsOf(edges);
  edges.sort((a, b) => a.u0 - b.u0);
  const slabs: Slab[] = [];
  let abreast: Edge[] = [];
  let next = 0;
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [from, to] = [cuts[i] as number, cuts[i + 1] as number];
    const middle = (from + to) / 2;
    for (; next < edges.length && (edges[next] as Edge).u0 < middle; next++) abreast.push(edges[next] as Edge);
    abreast = abreast.filter((edge) => edge.u1 > middle);
    slabs.push({ from, to, stretches: stretchesAt(middle, abreast) });
  }
  return slabs;
}

function edgesOf(axis: Axis, polygon: Polygon, index: number): Edge[] {
  const edges: Edge[] = [];
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    const [au, av, bu, bv] = axis === "x" ? [a.x, a.y, b.x, b.y] : [a.y, a.x, b.y, b.x];
    if (au < bu) edges.push({ u0: au, v0: av, u1: bu, v1: bv, polygon: index });
    if (bu < au) edges.push({ u0: bu, v0: bv, u1: au, v1: av, polygon: index });
  });
  return edges;
}

/** Every u inside the outline's range at which a corner lies or two polygons cross, in order. */
function cutsOf(edges: readonly Edge[]): number[] {
  const outline = edges.filter((edge) => edge.polygon === 0);
  const others = edges.filter((edge) => edge.polygon !== 0);
  const found = new Set<number>();
  let [least, most] = [Infinity, -Infinity];
  for (const { u0, u1 } of outline) [least, most] = [Math.min(least, u0), Math.max(most, u1)];
  for (const { u0, u1 } of edges) found.add(u0).add(u1);
  others.forEach((edge, i) => {
    for (const other of outline) addCrossing(found, edge, other);
    for (let k = i + 1; k < others.length; k++) addCrossing(found, edge, others[k] as Edge);
  });
  return [...found].filter((u) => u >= least && u <= most).sort((a, b) => a - b);
}

function addCrossing(found: Set<number>, a: Edge, b: Edge): void {
  if (a.polygon === b.polygon) return;
  const from = Math.max(a.u0, b.u0);
  const to = Math.min(a.u1, b.u1);
  if (from >= to) return;
  const before = at(a, from) - at(b, from);
  const after = at(a, to) - at(b, to);
  if (before * after < 0) found.add(from + ((to - from) * before) / (before - after));
}

/** v of the edge at u; exact at corners and on level edges. */
function at(edge: Edge, u: number): number {
  if (u <= edge.u0 || edge.v0 === edge.v1) return edge.v0;
  if (u >= edge.u1) return edge.v1;
  return edge.v0 + ((edge.v1 - edge.v0) * (u - edge.u0)) / (edge.u1 - edge.u0);
}

function stretchesAt(u: number, abreast: readonly Edge[]): Slab["stretches"] {
  const crossed = abreast.map((edge) => ({ edge, v: at(edge, u) })).sort((a, b) => a.v - b.v);
  const stretches: { low: End; high: End }[] = [];
  const inside = new Set<number>();
  let low: End | null = null;
  for (let i = 0; i < crossed.length; ) {
    const first = crossed[i] as { edge: Edge; v: number };
    let [outline, opening] = [false, false];
    for (; i < crossed.length && (crossed[i] as { v: number }).v - first.v < SAME_PLACE; i++) {
      const { polygon } = (crossed[i] as { edge: Edge }).edge;
      if (polygon === 0) outline = true;
      else opening = true;
      if (!inside.delete(polygon)) inside.add(polygon);
    }
    const needed = inside.size === 1 && inside.has(0);
    const end = { edge: first.edge, outline, opening };
    if (needed && low === null) low = end;
    if (!needed && low !== null) {
      stretches.push({ low, high: end });
      low = null;
    }
  }
  return stretches;
}

/**
 * The needed region inside a box as trapezoids, in order of u.
 *
 * @param axis the axis that u runs along
 * @param marks further places on that axis at which to cut
 */
export function trapezoids(region: Region, axis: Axis, box: Box, marks: readonly number[] = []): Trapezoid[] {
  const [u0, u1, v0, v1] = axis === "x" ? [box.x0, box.x1, box.y0, box.y1] : [box.y0, box.y1, box.x0, box.x1];
  const found: Trapezoid[] = [];
  if (v1 <= v0) return found;
  for (const slab of region.slabs[axis]) {
    const from = Math.max(slab.from, u0);
    const to = Math.min(slab.to, u1);
    if (from >= to) continue;
    for (const { low, high } of slab.stretches) {
      const cuts = [from, to, ...marks, ...crossings(low.edge, [v0, v1]), ...crossings(high.edge, [v0, v1])]
        .filter((u) => u >= from && u <= to)
        .sort((a, b) => a - b);
      for (let i = 0; i + 1 < cuts.length; i++) {
        const [a, b] = [cuts[i] as number, cuts[i + 1] as number];
        if (a >= b) continue;
        const middle = (a + b) / 2;
        const lowMiddle = at(low.edge, middle);
        const highMiddle = at(high.edge, middle);
        if (highMiddle <= v0 || lowMiddle >= v1) continue;
        const lowCut = lowMiddle < v0;
        const highCut = highMiddle > v1;
        found.push({
          from: a,
          to: b,
          low: lowCut ? [v0, v0] : [at(low.edge, a), at(low.edge, b)],
          high: highCut ? [v1, v1] : [at(high.edge, a), at(high.edge, b)],
          lowEnd: lowCut ? null : low,
          highEnd: highCut ? null : high,
        });
      }
    }
  }
  return found;
}

/** Where an edge passes through each of the given v. */
function crossings(edge: Edge, levels: readonly number[]): number[] {
  if (edge.v0 === edge.v1) return [];
  return levels.map((v) => edge.u0 + ((v - edge.v0) * (edge.u1 - edge.u0)) / (edge.v1 - edge.v0));
}

/** Area of the needed region inside a box, square ticks. */
export function areaIn(region: Region, box: Box): number {
  let area = 0;
  for (const { from, to, low, high } of trapezoids(region, "x", box)) {
    area += ((high[0] + high[1] - low[0] - low[1]) / 2) * (to - from);
  }
  return area;
}

/** Needed stretches beside a line, within lo..hi, as they are just before (-1) or just after (1) it; unrounded. */
export function beside(region: Region, axis: Axis, place: number, side: -1 | 1, lo: number, hi: number): Interval[] {
  const slab = region.slabs[axis].find(({ from, to }) =>
    side < 0 ? from < place && place <= to : from <= place && place < to,
  );
  const stretches = (slab?.stretches ?? []).map(({ low, high }) => ({
    from: Math.max(lo, at(low.edge, place)),
    to: Math.min(hi, at(high.edge, place)),
  }));
  return stretches.filter(({ from, to }) => to - from > SAME_PLACE);
}

/** Needed stretches on a line within lo..hi: what is needed just before or just after it, joined; unrounded. */
export function onLine(region: Region, axis: Axis, place: number, lo: number, hi: number): Interval[] {
  return joined([...beside(region, axis, place, -1, lo, hi), ...beside(region, axis, place, 1, lo, hi)]);
}

/** Stretches of a line, within lo..hi, with film needed on both sides of it. */
export function onBothSides(region: Region, axis: Axis, place: number, lo: number, hi: number): Interval[] {
  const after = beside(region, axis, place, 1, lo, hi);
  return beside(region, axis, place, -1, lo, hi).flatMap((a) =>
    after
      .map((b) => ({ from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) }))
      .filter(({ from, to }) => to - from > SAME_PLACE),
  );
}

/** Stretches in order, those that overlap or touch made one. */
export function joined(stretches: readonly Interval[]): Interval[] {
  const result: { from: number; to: number }[] = [];
  for (const { from, to } of [...stretches].sort((a, b) => a.from - b.from)) {
    const last = result[result.length - 1];
    if (last !== undefined && from <= last.to + SAME_PLACE) last.to = Math.max(last.to, to);
    else result.push({ from, to });
  }
  return result;
}
