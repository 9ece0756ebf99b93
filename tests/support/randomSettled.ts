import fc from "fast-check";
import type { JobDocument } from "../../shared/jobFile.ts";
import { randomSeamJob } from "./randomJob.ts";

/** What a random job may leave to be found, and what it may settle beforehand. */
const rawHold = fc.record({
  kind: fc.constantFrom("seam" as const, "noSeam" as const, "width" as const, "direction" as const),
  axis: fc.constantFrom("x" as const, "y" as const),
  /** Share of the elevation's size. */
  share: fc.integer({ min: 1, max: 15 }),
  width: fc.integer({ min: 8, max: 60 }),
});

const rawSettled = fc.array(
  fc.record({
    findSections: fc.boolean(),
    follow: fc.boolean(),
    // Holds at random contradict the rest more often than not: most elevations have none.
    holds: fc.oneof(
      { weight: 4, arbitrary: fc.constant<RawHold[]>([]) },
      fc.array(rawHold, { minLength: 1, maxLength: 2 }),
    ),
  }),
  { minLength: 4, maxLength: 4 },
);

type Elevation = NonNullable<JobDocument["elevations"]>[number];
type RawHold = typeof rawHold extends fc.Arbitrary<infer T> ? T : never;

/** Box of the outline that an elevation has or takes over. */
function boxOf(elevations: readonly Elevation[], { outline, mirrorOf }: Elevation): [number, number, number, number] {
  if (outline == null) return boxOf(elevations, elevations.find(({ id }) => id === mirrorOf) as Elevation);
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

function holdOf({ kind, axis, share, width }: RawHold, i: number, box: [number, number, number, number], inch: number) {
  const [low, high] = axis === "x" ? [box[0], box[2]] : [box[1], box[3]];
  const at = low + ((high - low) * share) / 16;
  const common = { id: `hold ${i}`, kind };
  if (kind === "direction") {
    return { ...common, kind, direction: axis === "x" ? ("vertical" as const) : ("horizontal" as const) };
  }
  if (kind === "noSeam") return { ...common, kind, axis, from: at, to: at + 2 * inch };
  return kind === "seam" ? { ...common, kind, axis, at } : { ...common, kind, axis, at, width: width * inch };
}

/** Any valid job that finds sections, follows sides and holds things, or does not. */
export const randomSettledJob: fc.Arbitrary<JobDocument> = fc
  .tuple(randomSeamJob, rawSettled)
  .map(([job, settled]): JobDocument => {
    const elevations = job.elevations ?? [];
    const inch = job.units === "in" ? 1 : 25.4;
    return {
      ...job,
      elevations: elevations.map((elevation, i) => {
        const { findSections, follow, holds } = settled[i] as (typeof settled)[number];
        const box = boxOf(elevations, elevation);
        return {
          ...elevation,
          ...(elevation.mirrorOf == null ? { findSections } : { mirror: follow ? "follow" : "exact" }),
          ...(holds.length > 0 ? { holds: holds.map((hold, n) => holdOf(hold, n, box, inch)) } : {}),
        };
      }),
    };
  });
