import { describe, expect, test } from "vitest";
import type { Break, Elevation, Obstacle } from "../../../core/model/instance.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { boxOf, elevationOf, inch, instanceOf, limitsOf, quietRun, rectangle } from "./builders.ts";

const gapAt = (at: number): Break => ({
  id: `gap${at}`,
  axis: "x",
  at: inch(at),
  from: 0,
  to: inch(60),
  type: "gap",
  width: 0,
  mustSplit: false,
});

const obstacle = (kind: string, box: [number, number, number, number]): Obstacle => ({
  id: `${kind}${box[0]}`,
  kind,
  box: boxOf(...box),
  rule: "avoid",
  clearance: 0,
});

/** Places of the seams of the first covering with so many that can be seen, inches. */
function seamsOf(source: Elevation, visible = 0): number[] {
  const answer = coverGroup(instanceOf([source]), source, [], limitsOf(60, "vertical"), quietRun);
  if ("reasons" in answer) throw new Error("no covering was found");
  const covering = answer.coverings.find(({ measures }) => measures.visibleSeams === visible);
  return covering?.seams.map(({ at }) => at / TICKS_PER.in) ?? [];
}

// 96 in on panels of 59 in at most, 4 in shared at a gap: a seam at 40 makes 42 + 58, one at 56 makes 58 + 42. Film,
// seams and panels cost the same. The bands are 38..42 and 54..58; neither line runs through a handle, so none is avoided.
describe("between gaps that cost the same, the band without a handle", () => {
  const breaks = [gapAt(40), gapAt(56)];
  const wall = (obstacles: Obstacle[]) => elevationOf(rectangle(0, 0, 96, 60), 0, { breaks, obstacles });
  test("the seam farther right where no handle tells them apart", () => {
    expect(seamsOf(wall([]))).toEqual([56]);
  });
  test("a handle beside the right gap, and one beside the left", () => {
    expect(seamsOf(wall([obstacle("handle", [57, 20, 61, 23])]))).toEqual([40]);
    expect(seamsOf(wall([obstacle("handle", [41, 20, 45, 23])]))).toEqual([56]);
  });
  test("fewer handles go before more", () => {
    const two = [obstacle("handle", [57, 20, 61, 23]), obstacle("handle", [57, 30, 61, 33])];
    expect(seamsOf(wall([...two, obstacle("handle", [41, 20, 45, 23])]))).toEqual([40]);
  });
  test("a handle that only touches the band tells nothing, nor does a lamp", () => {
    expect(seamsOf(wall([obstacle("handle", [58, 20, 61, 23])]))).toEqual([56]);
    expect(seamsOf(wall([obstacle("lamp", [57, 20, 61, 23])]))).toEqual([56]);
  });
});

// A square of 96 in with a gap across its middle both ways: either way two panels of 50 by 96 in, the bands 46..50.
test("between ways to run that cost the same, the one whose bands hold no handle", () => {
  const cross: Break[] = [gapAt(48), { ...gapAt(48), id: "level", axis: "y" as const }].map((line) => ({
    ...line,
    to: inch(96),
  }));
  const wayOf = (obstacles: Obstacle[]) => {
    const source = elevationOf(rectangle(0, 0, 96, 96), 0, { breaks: cross, obstacles });
    const answer = coverGroup(instanceOf([source]), source, [], limitsOf(60), quietRun);
    if ("reasons" in answer) throw new Error("no covering was found");
    return answer.coverings.find(({ measures }) => measures.visibleSeams === 0)?.panels[0]?.direction;
  };
  expect(wayOf([])).toBe("vertical");
  expect(wayOf([obstacle("handle", [49, 20, 53, 23])])).toBe("horizontal");
  expect(wayOf([obstacle("handle", [20, 49, 23, 53])])).toBe("vertical");
});

test("a handle costs nothing: less film goes before it", () => {
  // High up to 50: cut at 56 the second panel, from 54, is 30 in long; cut at 40 it begins at 38 and is 60 in long.
  const source = elevationOf(
    [
      { x: 0, y: 0 },
      { x: inch(96), y: 0 },
      { x: inch(96), y: inch(30) },
      { x: inch(50), y: inch(30) },
      { x: inch(50), y: inch(60) },
      { x: 0, y: inch(60) },
    ],
    0,
    { breaks: [gapAt(40), gapAt(56)], obstacles: [obstacle("handle", [57, 10, 61, 13])] },
  );
  expect(seamsOf(source)).toEqual([56]);
});

test("of two avoided zones, equal as penalties, the one that is no handle is met", () => {
  // 116 in on two panels of 59 in: an open seam may lie from 57.5 to 58.5 and shares 1 in, so that at 57.5 only the lower
  // zone is met, which ends at 58, at 58.5 only the upper, which begins there, and in between both.
  const between = (lower: string, upper: string) =>
    seamsOf(
      elevationOf(rectangle(0, 0, 116, 60), 0, {
        obstacles: [obstacle(lower, [50, 10, 58, 13]), obstacle(upper, [58, 40, 66, 43])],
      }),
      1,
    );
  expect(between("handle", "lamp")).toEqual([58.5]);
  expect(between("lamp", "handle")).toEqual([57.5]);
});
