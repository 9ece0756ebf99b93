import { describe, expect, test } from "vitest";
import { datumSheet } from "../../../core/fitting/datumSheet.ts";
import { mirrorBox, type Side } from "../../../core/geometry/box.ts";
import type { DatumRow } from "../../../core/model/datumRow.ts";
import type { Break, Elevation, KeepClear } from "../../../core/model/instance.ts";
import type { Layout, Seam } from "../../../core/model/plan.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { shelterLayout } from "../../golden/shelter.ts";
import { boxOf, inch, instanceOf, polygonOf, rectangle } from "../panelling/builders.ts";
import { borderOf, seamOf, wallOf } from "./builders.ts";

const layoutOf = (seams: readonly Seam[]): Layout => ({ ...shelterLayout, panels: [], seams, rolls: [] });

const sheet = (elevations: readonly Elevation[], seams: readonly Seam[]): DatumRow[] =>
  datumSheet(instanceOf(elevations), layoutOf(seams));

const sides: readonly Side[] = ["left", "right", "bottom", "top"];
/** Left, right, bottom, top, inches. */
const inches = (edges: DatumRow["fromEdges"] | undefined) =>
  sides.map((side) => {
    const value = edges?.[side];
    return value == null ? null : value / TICKS_PER.in;
  });

const lettering = (id: string, x0: number, y0: number, x1: number, y1: number): KeepClear => ({
  id,
  label: `"${id}"`,
  box: boxOf(x0, y0, x1, y1),
  rule: "never",
  reason: "lettering",
});

const gap = (id: string, axis: "x" | "y", at: number, to = 40, type: Break["type"] = "gap"): Break => ({
  id,
  axis,
  at: inch(at),
  from: 0,
  to: inch(to),
  type,
  width: 0,
  mustSplit: false,
});

describe("lettering and logos", () => {
  const outline = rectangle(0, 0, 130, 40);

  test("from all four edges, to the nearest sixteenth with halves up", () => {
    const wall = wallOf(outline, 3, {
      keepClear: [
        lettering("county", 20, 10, 60.03125, 25.01),
        { ...lettering("sun", 1, 1, 2, 2), reason: "logo" },
        { ...lettering("plate", 1, 1, 2, 2), reason: "plate" },
      ],
    });
    const rows = sheet([wall], []);
    expect(rows.map(({ id, kind }) => [id, kind])).toEqual([
      ["county", "lettering"],
      ["sun", "logo"],
    ]);
    // 130 - 60 1/32 = 69 31/32, half way to 70; 40 - 25.01 = 14.99, nearest 15.
    expect(inches(rows[0]?.fromEdges)).toEqual([20, 70, 10, 15]);
    // Middles at (10 + 25.01) / 2 = 17.505 and (20 + 60.03125) / 2 = 40.015625, to 1/16.
    expect([rows[0]?.atHeight, rows[0]?.atPlace]).toEqual([inch(17.5), inch(40)]);
  });

  test("on a sloped nose the edge at the middle of the lettering counts", () => {
    // The front slopes from (0, 0) to (20, 40): at height 20 it is at 10. A notch from 70 to 80 parts the body above 30.
    const nose = polygonOf([0, 0], [130, 0], [130, 40], [80, 40], [80, 30], [70, 30], [70, 40], [20, 40]);
    const low = lettering("low", 30, 15, 50, 25);
    const high = lettering("high", 90, 32, 100, 36);
    const rows = sheet([wallOf(nose, 3, { keepClear: [low, high] })], []);
    expect(inches(rows[0]?.fromEdges)).toEqual([20, 80, 15, 15]);
    // At height 34 the body goes on at 80, right of the notch.
    expect(inches(rows[1]?.fromEdges)).toEqual([10, 30, 32, 4]);
  });

  test("lettering that sticks out of the body has a negative distance; off the body it has none", () => {
    const keepClear = [lettering("out", -2, 10, 20, 20), lettering("off", 10, 50, 20, 60)];
    const rows = sheet([wallOf(outline, 3, { keepClear })], []);
    expect(inches(rows[0]?.fromEdges)).toEqual([-2, 110, 10, 20]);
    expect(inches(rows[1]?.fromEdges)).toEqual([null, null, 50, -20]);
  });

  test("the nearest break that runs beside it, on either axis; through it beats all", () => {
    const keepClear = [lettering("county", 20, 10, 60, 25)];
    const nearest = (breaks: readonly Break[]) =>
      sheet([wallOf(outline, 3, { keepClear, breaks })], [])[0]?.nearestBreak;
    const low = gap("low", "x", 62, 9);
    const belt = gap("belt", "y", 30, 130, "moulding");
    const door = gap("door", "x", 16);
    expect(nearest([low])).toBeNull();
    expect(nearest([low, belt, door])).toEqual({
      id: "door",
      type: "gap",
      axis: "x",
      side: "left",
      distance: inch(4),
    });
    expect(nearest([belt, gap("door", "x", 66)])).toMatchObject({ id: "belt", side: "top", distance: inch(5) });
    expect(nearest([gap("a", "x", 60), gap("b", "x", 50)])).toMatchObject({ id: "a", side: "right", distance: 0 });
    expect(nearest([gap("b", "x", 50), door])).toMatchObject({ id: "b", side: "through", distance: inch(30) });
  });
});

describe("seams", () => {
  test("an upright one from left and right, a level one from bottom and top, at the middle of its run", () => {
    const nose = polygonOf([0, 0], [130, 0], [130, 40], [20, 40]);
    const seams = [seamOf("x", 50, "1", "2"), borderOf("y", 30, 15, 130, "fill-bottom", "upper")];
    const rows = sheet([wallOf(nose, 3)], seams);
    expect(rows.map(({ label, axis }) => [label, axis])).toEqual([
      ["seam 50 of section 'whole'", "x"],
      ["border of bottom fill and section 'upper'", "y"],
    ]);
    expect(rows.map(({ fromEdges }) => inches(fromEdges))).toEqual([
      [40, 80, null, null],
      [null, null, 30, 10],
    ]);
    expect(rows.map(({ atHeight, atPlace }) => [atHeight, atPlace])).toEqual([
      [inch(20), null],
      [null, inch(72.5)],
    ]);
  });

  test("the nearest break of its own axis; one on its line lies through it", () => {
    const breaks = [gap("belt", "y", 20, 130), gap("door", "x", 47)];
    const rows = sheet(
      [wallOf(rectangle(0, 0, 130, 40), 3, { breaks })],
      [seamOf("x", 50, "1", "2"), seamOf("x", 47, "0", "1")],
    );
    expect(rows[0]?.nearestBreak).toMatchObject({ id: "door", side: "left", distance: inch(3) });
    expect(rows[1]?.nearestBreak).toMatchObject({ id: "door", side: "through", distance: 0 });
  });
});

describe("two sides", () => {
  const outline = polygonOf([0, 0], [130, 0], [130, 40], [20, 40]);
  const left = wallOf(outline, 3, {
    id: "left",
    travel: "left",
    keepClear: [lettering("county", 40, 10, 61.03, 20)],
  });
  const right: Elevation = {
    ...left,
    id: "right",
    mirrorOf: "left",
    travel: "right",
    outline: outline.map(({ x, y }) => ({ x: inch(130) - x, y })),
    keepClear: left.keepClear.map((zone) => ({ ...zone, box: mirrorBox(zone.box, left.box) })),
  };
  const on = (elevation: string, at: number): Seam => ({
    ...seamOf("x", at, "1", "2"),
    id: `${elevation}/whole:${at}`,
    elevation,
  });
  const level = (elevation: string, at: number): Seam => ({
    ...borderOf("y", at, 0, 130, "lower", "upper"),
    id: `${elevation}/lower|upper`,
    elevation,
  });

  test("made alike give the same figures with left and right changed over", () => {
    const seams = [
      on("left", 50),
      on("left", 90),
      level("left", 25),
      on("right", 40),
      on("right", 80),
      level("right", 25),
    ];
    const rows = sheet([left, right], seams);
    expect(rows.map(({ id, otherSide }) => [id, otherSide?.id, otherSide?.difference])).toEqual([
      ["county", "county", 0],
      ["left/whole:50", "right/whole:80", 0],
      ["left/whole:90", "right/whole:40", 0],
      ["left/lower|upper", "right/lower|upper", 0],
      ["county", "county", 0],
      ["right/whole:40", "left/whole:90", 0],
      ["right/whole:80", "left/whole:50", 0],
      ["right/lower|upper", "left/lower|upper", 0],
    ]);
    for (const { fromEdges, otherSide } of rows) expect(otherSide?.fromEdges).toEqual(fromEdges);
  });

  test("a seam that lies elsewhere there is told with how much; one more there has no match", () => {
    const rows = sheet([left, right], [on("left", 50), on("right", 79), on("right", 30)]);
    // 80 is where the image of 50 would be.
    expect(rows[1]?.otherSide).toMatchObject({ id: "right/whole:79", difference: inch(1) });
    expect(rows.find(({ id }) => id === "right/whole:30")?.otherSide).toBeNull();
  });

  test("lettering set differently there is told", () => {
    const moved = right.keepClear.map((zone) => ({
      ...zone,
      id: "name",
      box: { ...zone.box, y1: zone.box.y1 + inch(2) },
    }));
    const rows = sheet([left, { ...right, keepClear: moved }], []);
    // Found by its label, though its id is another; 2 in less from the top.
    expect(rows[0]?.otherSide).toMatchObject({ elevation: "right", id: "name" });
    expect(rows[0]?.otherSide?.fromEdges.top).toBe(inch(18));
  });

  test("without a mirror: the elevation of the same subject that travels the opposite way, no other", () => {
    const plain = { ...right, mirrorOf: null };
    const of = (subject: string | null, travel: Elevation["travel"]) =>
      sheet(
        [
          { ...left, subject: "bus" },
          { ...plain, subject, travel },
        ],
        [],
      )[0]?.otherSide?.elevation ?? null;
    expect(of("bus", "right")).toBe("right");
    expect(of("bus", "left")).toBeNull();
    expect(of("trailer", "right")).toBeNull();
    expect(of(null, "right")).toBeNull();
  });
});

test("in millimetres to the whole millimetre", () => {
  const wall = wallOf(rectangle(0, 0, 130, 40), 3, {
    keepClear: [
      {
        ...lettering("county", 0, 10, 60, 25),
        box: { x0: 400_000 + 19_999, y0: 0, x1: 800_000 + 20_000, y1: 400_000 },
      },
    ],
  });
  const [row] = datumSheet({ ...instanceOf([wall]), unit: "mm" }, layoutOf([]));
  // 10.499975 mm; 130 in are 3302 mm, less 20.5.
  expect([row?.fromEdges.left, row?.fromEdges.right]).toEqual([10 * 40_000, 3282 * 40_000]);
});
