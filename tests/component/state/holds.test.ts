import fc from "fast-check";
import { expect, test } from "vitest";
import { buildInstance, readJob, ticksFrom } from "../../../core/index.ts";
import { listIn } from "../../../renderer/state/entries.ts";
import { holdsBinding } from "../../../renderer/state/groupHolds.ts";
import { edit, undo } from "../../../renderer/state/history.ts";
import {
  addHold,
  groupOf,
  type HoldMade,
  heldSection,
  holdOfPanel,
  holdOfSeam,
  holdsOn,
  holdWords,
  reflected,
  removeHold,
} from "../../../renderer/state/holds.ts";
import type { JobJson } from "../../../shared/host.ts";
import { boothJob, boothPlan } from "../sheet/standInHost.ts";

/** The booth (long side 0 to 70 in, mirrored by the other long side) with two more sides: one follows, one repeats that. */
function fourSides(): JobJson {
  const job = boothJob();
  job.elevations = [
    ...(job.elevations as object[]),
    { id: "E", name: "Third side", mirrorOf: "A", mirror: "follow" },
    { id: "F", name: "Fourth side", mirrorOf: "E" },
  ];
  return job;
}

const seamAt = (at: number): HoldMade => ({ kind: "seam", axis: "x", at, section: null });
const withHold = (job: JobJson, elevation: string, hold: HoldMade): JobJson => {
  const draft = structuredClone(job);
  addHold(draft, elevation, hold);
  return draft;
};
const elevation = (job: JobJson, id: string) =>
  (job.elevations as Record<string, unknown>[]).find((entry) => entry.id === id);

test("a hold on a side that repeats another stands, reflected, on that other, and is seen on both", () => {
  const job = withHold(fourSides(), "B", seamAt(20));
  // 0 + 70 - 20
  expect(elevation(job, "A")?.holds).toEqual([{ id: "hold 1", ...seamAt(50) }]);
  expect(elevation(job, "B")?.holds).toBeUndefined();
  expect(holdsOn(job, "A").map(({ hold }) => hold)).toMatchObject([seamAt(50)]);
  expect(holdsOn(job, "B").map(({ hold, path }) => ({ hold, path }))).toMatchObject([
    { hold: seamAt(20), path: "elevations[0].holds[0]" },
  ]);
});

test("a side that follows has holds of its own, and so has what repeats it", () => {
  const job = withHold(withHold(fourSides(), "A", seamAt(25)), "F", seamAt(10));
  expect(elevation(job, "E")?.holds).toEqual([{ id: "hold 1", ...seamAt(60) }]);
  expect(holdsOn(job, "A")).toHaveLength(1);
  expect(holdsOn(job, "E").map(({ hold }) => hold)).toMatchObject([seamAt(60)]);
  expect(holdsOn(job, "F").map(({ hold }) => hold)).toMatchObject([seamAt(10)]);
  const group = groupOf(job, "F");
  expect(group).toEqual({ head: 4, members: [4, 5] });
});

test("holds of every kind are reflected by their places from left to right alone", () => {
  const sum = ticksFrom(70, "in");
  const stretch: HoldMade = { kind: "noSeam", axis: "x", from: 10, to: 20, section: "whole" };
  expect(reflected(stretch, sum, "in")).toEqual({ ...stretch, from: 50, to: 60 });
  const width: HoldMade = { kind: "width", axis: "x", at: 12, width: 30, section: null };
  expect(reflected(width, sum, "in")).toEqual({ ...width, at: 58 });
  for (const level of [
    { kind: "seam", axis: "y", at: 12, section: null },
    { kind: "direction", direction: "vertical", section: null },
  ] as const) {
    expect(reflected(level, sum, "in")).toEqual(level);
  }
});

test("reflecting twice gives the very same tick", () => {
  fc.assert(
    fc.property(fc.integer({ min: -2_000_000, max: 2_000_000 }), fc.integer({ min: 0, max: 70 }), (at, right) => {
      const hold = seamAt(at / 1_016_000);
      const twice = reflected(reflected(hold, ticksFrom(right, "in"), "in"), ticksFrom(right, "in"), "in");
      expect(twice.kind === "seam" && ticksFrom(twice.at, "in")).toBe(at);
    }),
    { seed: 20260101 },
  );
});

test("what is written is read by the core as a hold of each side, and the drawing marks it on each", () => {
  const job = withHold(fourSides(), "B", seamAt(20));
  const read = readJob(job);
  expect(read.problems).toEqual([]);
  if (read.job === null) throw new Error("The job can't be read.");
  const built = buildInstance(read.job);
  if (!("instance" in built)) throw new Error("The job can't be built.");
  const { elevations } = built.instance;
  const places = (id: string) =>
    holdsBinding(elevations, elevations.find((one) => one.id === id) as (typeof elevations)[number]).map((hold) =>
      hold.kind === "seam" ? hold.at : null,
    );
  expect(places("A")).toEqual([ticksFrom(50, "in")]);
  expect(places("B")).toEqual([ticksFrom(20, "in")]);
  expect(places("E")).toEqual([]);
});

test("a hold is one step to undo, and released leaves the job as it was", () => {
  const job = fourSides();
  const once = edit(job, { done: [], undone: [] }, "Hold", (draft) => addHold(draft, "B", seamAt(20)));
  expect(undo(once.job, once.past)?.job).toEqual(job);
  const [seen] = holdsOn(once.job, "B");
  if (seen === undefined) throw new Error("Nothing is held.");
  expect(edit(once.job, once.past, "Release", (draft) => removeHold(draft, seen)).job).toEqual(job);
});

test("ids of holds stay apart when one between them was released", () => {
  let job = withHold(withHold(fourSides(), "A", seamAt(25)), "A", seamAt(44));
  const [first] = holdsOn(job, "A");
  if (first === undefined) throw new Error("Nothing is held.");
  const draft = structuredClone(job);
  removeHold(draft, first);
  job = withHold(draft, "A", seamAt(30));
  const ids = listIn(elevation(job, "A")?.holds).map(({ id }) => id);
  expect(new Set(ids).size).toBe(2);
});

test("the seam and the panel that a hold is for are found, in their own section alone", () => {
  const layout = boothPlan().layouts[0];
  const seam = layout?.seams.find((one) => one.elevation === "B" && one.axis === "x" && !one.border);
  const panel = layout?.panels.find(({ id }) => id === "B/2");
  if (seam === undefined || panel === undefined) throw new Error("The hand-made plan lacks it.");
  const held = withHold(fourSides(), "B", seamAt(seam.at));
  expect(holdOfSeam(held, seam)?.owner).toBe(0);
  expect(holdOfSeam(fourSides(), seam)).toBeNull();
  expect(holdOfSeam(withHold(fourSides(), "B", { ...seamAt(seam.at), section: "whole" }), seam)).not.toBeNull();
  expect(holdOfSeam(withHold(fourSides(), "B", { ...seamAt(seam.at), section: "other" }), seam)).toBeNull();
  const width = { kind: "width", axis: "x", at: 36, width: 20, section: null } as const;
  expect(holdOfPanel(withHold(fourSides(), "B", width), panel)?.hold).toMatchObject({ width: 20 });
  expect(holdOfPanel(withHold(fourSides(), "B", { ...width, at: 60 }), panel)).toBeNull();
});

test("a hold names a section only where the job gives it", () => {
  expect(heldSection(fourSides(), "C", "upper")).toBe("upper");
  expect(heldSection(fourSides(), "F", "whole")).toBe("whole");
  expect(heldSection(fourSides(), "A", "found 1")).toBeNull();
});

test("a hold that can't be read is shown as such and can be released", () => {
  const job = fourSides();
  Object.assign(elevation(job, "A") as object, { holds: [{ id: "odd", kind: "seam", axis: "z" }] });
  const [seen] = holdsOn(job, "B");
  expect(seen?.hold).toBeNull();
  removeHold(job, seen as NonNullable<typeof seen>);
  expect(holdsOn(job, "B")).toEqual([]);
});

test("holds in words", () => {
  expect(holdWords(seamAt(110.5), "in")).toBe("Upright seam at 110 1/2 in");
  expect(holdWords({ kind: "noSeam", axis: "y", from: 40, to: 46, section: "upper" }, "in")).toBe(
    "No level seam from 40 in to 46 in, section upper",
  );
  expect(holdWords({ kind: "width", axis: "x", at: 600, width: 1200, section: null }, "mm")).toBe(
    "Panel at 600 mm is 1200 mm across",
  );
  expect(holdWords({ kind: "direction", direction: "vertical", section: null }, "in")).toBe("Panels run vertical");
});
