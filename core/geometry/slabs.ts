import type { Polygon } from "./box.ts";

/**
 * A polygon with holes cut into slabs: between two neighbouring events (corners and crossings of edges) no edge begins,
 * ends or crosses another, so what is needed there is a fixed stack of stretches, each between two straight edges.
 *
 * Coordinates are called u (along which the slabs lie side by side) and v. A region holds one set with u = x and one with
 * u = y, so that everything that asks "how far does it reach" is written once.
 */
export interface Slab {
  readonly from: number;
  readonly to: number;
  /** Lowest first; disjoint inside the slab. */
  readonly stretches: readonly Stretch[];
}

export interface Stretch {
  readonly low: End;
  readonly high: End;
}

/** One end of the stretches of a slab: the edge it lies on, and what the region ends at there. */
export interface End {
  readonly edge: Edge;
  readonly outline: boolean;
  readonly opening: boolean;
}

/** An edge that is not upright, from its lesser u to its greater. */
export interface Edge {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
  /** 0: the outline; i + 1: opening i. */
  readonly ring: number;
}

/** Two edges nearer than this at the middle of a slab are one line; ticks, far below any length that matters. */
const SAME = 1e-6;

/** v of an edge at u, exact at its two ends and on level edges. */
export function valueAt(edge: Edge, u: number): number {
  if (edge.v0 === edge.v1 || u <= edge.u0) return edge.v0;
  if (u >= edge.u1) return edge.v1;
  return edge.v0 + ((u - edge.u0) / (edge.u1 - edge.u0)) * (edge.v1 - edge.v0);
}

/**
 * Cuts outline minus openings into slabs.
 *
 * @param rings the outline, then the openings, each simple, either way round, as [u, v] pairs in ticks
 * @returns slabs in order of u, tiling the outline's range of u; those with nothing needed have no stretches
 *
 * Time O(n log n + k + s·a) for n edges with k pairs of overlapping ranges, s slabs and a edges across one slab.
 */
export function cutIntoSlabs(rings: readonly (readonly (readonly [number, number])[])[]): Slab[] {
  const edges = rings.flatMap(edgesOf);
  edges.sort((a, b) => a.u0 - b.u0);
  const events = eventsOf(rings, edges);
  const slabs: Slab[] = [];
  let active: Edge[] = [];
  let next = 0;
  for (let i = 0; i + 1 < events.length; i++) {
    const from = events[i] as number;
    const to = events[i + 1] as number;
    const middle = (from + to) / 2;
    active = active.filter((edge) => edge.u1 > middle);
    for (let edge = edges[next]; edge !== undefined && edge.u0 < middle; edge = edges[++next]) {
      if (edge.u1 > middle) active.push(edge);
    }
    slabs.push({ from, to, stretches: stretchesAt(active, middle) });
  }
  return slabs;
}

function edgesOf(ring: readonly (readonly [number, number])[], index: number): Edge[] {
  const edges: Edge[] = [];
  ring.forEach(([au, av], i) => {
    const [bu, bv] = ring[(i + 1) % ring.length] as readonly [number, number];
    if (au < bu) edges.push({ u0: au, v0: av, u1: bu, v1: bv, ring: index });
    else if (bu < au) edges.push({ u0: bu, v0: bv, u1: au, v1: av, ring: index });
  });
  return edges;
}

/** Every u at which the stack of stretches may change, in order, within the outline's range. */
function eventsOf(rings: readonly (readonly (readonly [number, number])[])[], edges: readonly Edge[]): number[] {
  const outline = (rings[0] ?? []).map(([u]) => u);
  const [least, most] = outline.reduce(([a, b], u) => [Math.min(a, u), Math.max(b, u)], [Infinity, -Infinity]);
  const events = new Set<number>();
  for (const ring of rings) for (const [u] of ring) if (u >= least && u <= most) events.add(u);
  let open: Edge[] = [];
  for (const edge of edges) {
    open = open.filter((other) => other.u1 > edge.u0);
    for (const other of open) {
      if (other.ring === edge.ring) continue;
      const u = crossing(edge, other);
      if (u !== null && u > least && u < most) events.add(u);
    }
    open.push(edge);
  }
  return [...events].sort((a, b) => a - b);
}

/** u at which two edges cross strictly inside both, or null. */
function crossing(a: Edge, b: Edge): number | null {
  const from = Math.max(a.u0, b.u0);
  const to = Math.min(a.u1, b.u1);
  const before = valueAt(a, from) - valueAt(b, from);
  const after = valueAt(a, to) - valueAt(b, to);
  if (before * after >= 0) return null;
  const u = from + (before / (before - after)) * (to - from);
  return u > from && u < to ? u : null;
}

/** What is needed on the line u = middle, from the edges that cross it. */
function stretchesAt(active: readonly Edge[], middle: number): Stretch[] {
  const across = active.map((edge) => ({ edge, v: valueAt(edge, middle) })).sort((a, b) => a.v - b.v);
  const stretches: Stretch[] = [];
  const inOpening = new Set<number>();
  let inOutline = false;
  let low: End | null = null;
  for (let i = 0; i < across.length; ) {
    const here = across[i] as { edge: Edge; v: number };
    const [outlineBefore, coveredBefore] = [inOutline, inOpening.size > 0];
    for (; i < across.length && (across[i] as { v: number }).v - here.v <= SAME; i++) {
      const { ring } = (across[i] as { edge: Edge }).edge;
      if (ring === 0) inOutline = !inOutline;
      else if (!inOpening.delete(ring)) inOpening.add(ring);
    }
    const covered = inOpening.size > 0;
    const end: End = { edge: here.edge, outline: outlineBefore !== inOutline, opening: coveredBefore !== covered };
    const needed = inOutline && !covered;
    if (low === null && needed) low = end;
    else if (low !== null && !needed) {
      stretches.push({ low, high: end });
      low = null;
    }
  }
  return stretches;
}

/** The outline and openings of an elevation as rings of [u, v], with u the named axis. */
export function ringsAlong(axis: "x" | "y", polygons: readonly Polygon[]): (readonly [number, number])[][] {
  return polygons.map((polygon) => polygon.map(({ x, y }) => (axis === "x" ? [x, y] : [y, x])));
}
