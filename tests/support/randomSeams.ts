import fc from "fast-check";
import { base64From } from "../../core/model/base64.ts";
import type { JobDocument } from "../../shared/jobFile.ts";

/**
 * What a random job may say of its seams beyond the plainest: colour edges that slope or step, film that meets edge to
 * edge, weights by height and by artwork, clearances by kind, panels that can be shifted.
 */
const rawPath = fc.record({
  /** How far the edge lies beside its place at its beginning, at a third, at two thirds, and at its end; sixteenths. */
  beside: fc.array(fc.integer({ min: -12, max: 12 }), { minLength: 4, maxLength: 4 }),
  stepped: fc.boolean(),
});

const rawMap = fc.record({
  x: fc.integer({ min: -3, max: 12 }),
  y: fc.integer({ min: -3, max: 12 }),
  cell: fc.constantFrom(0.75, 2, 5),
  columns: fc.integer({ min: 1, max: 12 }),
  rows: fc.integer({ min: 1, max: 4 }),
  values: fc.array(fc.constantFrom(0, 0, 40, 255), { minLength: 96, maxLength: 96 }),
});

const rarely = fc.constantFrom(false, false, false, true);

export const rawSeams = fc.record({
  /** By elevation; null: its edges are straight. */
  paths: fc.array(fc.option(rawPath), { minLength: 4, maxLength: 4 }),
  maps: fc.array(fc.option(rawMap), { minLength: 4, maxLength: 4 }),
  ground: fc.array(fc.constantFrom(null, null, -12, 3), { minLength: 4, maxLength: 4 }),
  butted: fc.array(rarely, { minLength: 3, maxLength: 3 }),
  zones: fc.array(
    fc.record({
      from: fc.integer({ min: -4, max: 40 }),
      size: fc.integer({ min: 1, max: 24 }),
      weight: fc.constantFrom(0, 0.25, 1, 3),
    }),
    { maxLength: 2 },
  ),
  artworkWeight: fc.constantFrom(null, 0, 1.5),
  clearance: fc.constantFrom(null, null, 0.5),
  leastSlack: fc.constantFrom(null, null, null, 0.25, 0.75),
  alternate: rarely,
});

export type RawSeams = typeof rawSeams extends fc.Arbitrary<infer T> ? T : never;

type Elevation = NonNullable<JobDocument["elevations"]>[number];
type ColourEdge = NonNullable<Elevation["colourEdges"]>[number];
type Scale = (inches: number) => number;

/** A path that lies beside the edge's place on both sides, or on it, so that the place is within its breadth. */
function pathOf({ axis, at, from, to }: ColourEdge, { beside, stepped }: RawSeams["paths"][number] & {}, scale: Scale) {
  const first = beside[0] as number;
  // The last corner lies on the other side of the place than the first one.
  const offsets = [...beside.slice(0, 3), first > 0 ? -Math.abs(beside[3] as number) : Math.abs(beside[3] as number)];
  const corners = offsets.flatMap((offset, i): [number, number][] => {
    const across = at + scale(offset / 16);
    const along = i === 3 ? to : from + (i * (to - from)) / 3;
    const before = at + scale((offsets[i - 1] ?? offset) / 16);
    return stepped && i > 0
      ? [
          [before, along],
          [across, along],
        ]
      : [[across, along]];
  });
  return corners.map(([across, along]): [number, number] => (axis === "x" ? [across, along] : [along, across]));
}

/** Lowest and leftmost corner of the outline that an elevation has or takes over. */
function originOf(elevations: readonly Elevation[], { outline, mirrorOf }: Elevation): [number, number] {
  if (outline == null) return originOf(elevations, elevations.find(({ id }) => id === mirrorOf) as Elevation);
  return [Math.min(...outline.map(([x]) => x)), Math.min(...outline.map(([, y]) => y))];
}

/** A job with these dials turned. Only what may be said is said: film that meets edge to edge can't be shifted. */
export function withSeams(job: JobDocument, raw: RawSeams, scale: Scale): JobDocument {
  const elevations = (job.elevations ?? []).map((elevation, i): Elevation => {
    const [path, map, ground] = [raw.paths[i] ?? null, raw.maps[i] ?? null, raw.ground[i] ?? null];
    const [x, y] = originOf(job.elevations ?? [], elevation);
    const colourEdges = elevation.colourEdges?.map((edge) =>
      path === null ? edge : { ...edge, path: pathOf(edge, path, scale) },
    );
    const bytes = (from: number) =>
      base64From(Uint8Array.from((map?.values ?? []).slice(from, from + (map?.columns ?? 0) * (map?.rows ?? 0))));
    const ownGround = elevation.mirrorOf == null && ground !== null ? { ground: y + scale(ground) } : {};
    return {
      ...elevation,
      ...(colourEdges === undefined ? {} : { colourEdges }),
      ...(map === null
        ? {}
        : {
            seamMap: {
              origin: [x + scale(map.x), y + scale(map.y)],
              cell: scale(map.cell),
              columns: map.columns,
              rows: map.rows,
              upright: bytes(0),
              level: bytes(48),
            },
          }),
      ...ownGround,
    };
  });
  const films = (job.films ?? []).map((film, i) =>
    raw.butted[i] === true && raw.leastSlack === null ? { ...film, joint: "butted" as const } : film,
  );
  const turnable = films.every(({ lay }) => lay === "two-way" || lay === "any");
  return {
    ...job,
    films,
    elevations:
      raw.alternate && turnable
        ? elevations.map((one) => (one.mirrorOf == null ? { ...one, heads: "alternate" } : one))
        : elevations,
    rules: {
      ...job.rules,
      ...(raw.zones.length === 0
        ? {}
        : {
            heightZones: raw.zones.map(({ from, size, weight }) => ({
              from: scale(from),
              to: scale(from + size),
              weight,
            })),
          }),
      ...(raw.artworkWeight === null ? {} : { artworkWeight: raw.artworkWeight }),
      ...(raw.clearance === null ? {} : { clearances: { handle: scale(raw.clearance) } }),
      ...(raw.leastSlack === null ? {} : { leastSlack: scale(raw.leastSlack) }),
    },
  };
}
