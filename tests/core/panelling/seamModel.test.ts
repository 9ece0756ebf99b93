import { describe, expect, test } from "vitest";
import type { Covering } from "../../../core/model/covering.ts";
import type { Break, ColourEdge, Elevation, Film, Rules, SeamMap, Section } from "../../../core/model/instance.ts";
import { mirrorElevation } from "../../../core/model/mirrorElevation.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import {
  boxOf,
  elevationOf,
  inch,
  instanceOf,
  limitsOf,
  plainFilm,
  polygonOf,
  quietRun,
  rectangle,
} from "./builders.ts";

const inches = (ticks: number) => ticks / TICKS_PER.in;

const edge = (path: readonly (readonly [number, number])[] | null, given: Partial<ColourEdge> = {}): ColourEdge => ({
  id: "flame",
  axis: "x",
  at: inch(50),
  from: 0,
  to: inch(60),
  path: path === null ? null : polygonOf(...path),
  ...given,
});

const breakAt = (at: number, given: Partial<Break> = {}): Break => ({
  id: `break${at}`,
  axis: "x",
  at: inch(at),
  from: 0,
  to: inch(60),
  type: "gap",
  width: 0,
  mustSplit: true,
  ...given,
});

const section = (id: string, box: [number, number, number, number], given: Partial<Section> = {}): Section => ({
  id,
  box: boxOf(...box),
  direction: "vertical",
  maxAcross: null,
  heads: "same",
  ...given,
});

function coverings(
  source: Elevation,
  { roll = 60, rules = {}, films = [plainFilm], mirrors = [] as Elevation[] } = {} as {
    roll?: number;
    rules?: Partial<Rules>;
    films?: Film[];
    mirrors?: Elevation[];
  },
): readonly Covering[] {
  const limits = limitsOf(
    roll,
    null,
    1800,
    films.map(({ id }) => id),
  );
  const answer = coverGroup(instanceOf([source, ...mirrors], rules, films), source, mirrors, limits, quietRun);
  if ("reasons" in answer) throw new Error(answer.reasons.map(({ why }) => why).join(" "));
  return answer.coverings;
}

/** Seams of the covering that has one at this place, as [at, kind, overlap, finished], inches. */
function seamAt(list: readonly Covering[], at: number, elevation = "left") {
  const covering = list.find(({ seams }) => seams.some((seam) => seam.at === inch(at)));
  const seam = covering?.seams.find((one) => one.at === inch(at) && one.elevation === elevation);
  return seam === undefined ? null : [seam.kind, inches(seam.overlap), inches(seam.finishedOverlap)];
}

const across = ({ panels }: Covering, elevation = "left") =>
  panels.filter((panel) => panel.elevation === elevation).map(({ window: { x0, x1 } }) => [inches(x0), inches(x1)]);

// Overlap 1, left at a colour edge 0.25, trimmed at a break 4, as in `plainRules`.
// Without open seams on a copy a seam can lie on the edge alone.
describe("a colour edge that is no straight line", () => {
  const rules = { maxOpenSeams: 0 };
  const wall = (colourEdges: ColourEdge[], given: Partial<Elevation> = {}) =>
    elevationOf(rectangle(0, 0, 100, 60), 0, { colourEdges, sections: [section("whole", [0, 0, 100, 60])], ...given });
  const sloped: [number, number][] = [
    [48, 0],
    [53, 60],
  ];

  test("strays 3 in at most: 2 x 3 + 0.25 = 6.25 in are shared, 3.125 past the line", () => {
    const list = coverings(wall([edge(sloped)]), { rules });
    expect(seamAt(list, 50)).toEqual(["colourEdge", 6.25, 0.25]);
    const covering = list.find(({ seams }) => seams.some(({ at }) => at === inch(50))) as Covering;
    expect(across(covering)).toEqual([
      [0, 53.125],
      [46.875, 100],
    ]);
  });

  test("straight, or nearly, it asks for the plain overlap", () => {
    expect(seamAt(coverings(wall([edge(null)]), { rules }), 50)).toEqual(["colourEdge", 1, 0.25]);
    const near = edge([
      [49.75, 0],
      [50.25, 60],
    ]);
    // 2 x 0.25 + 0.25 < 1.
    expect(seamAt(coverings(wall([near]), { rules }), 50)).toEqual(["colourEdge", 1, 0.25]);
  });

  test("a step in the edge counts with both its ends", () => {
    const stepped = edge([
      [49, 0],
      [49, 20],
      [52, 20],
      [50, 60],
    ]);
    expect(seamAt(coverings(wall([stepped]), { rules }), 50)).toEqual(["colourEdge", 4.25, 0.25]);
  });

  test("only what lies between the seam's ends counts", () => {
    const between = edge(null, { id: "between", axis: "y", at: inch(30), from: 0, to: inch(100) });
    // At 30 the edge has come to 50.5: below it strays 2 in, above 3 in.
    const sections = [section("lower", [0, 0, 100, 30]), section("upper", [0, 30, 100, 60])];
    const list = coverings(wall([edge(sloped), between], { sections }), { rules });
    const own = (id: string) =>
      new Set(
        list.flatMap(({ seams }) =>
          seams.filter((s) => s.section === id && s.at === inch(50)).map((s) => inches(s.overlap)),
        ),
      );
    expect([...own("lower")]).toEqual([4.25]);
    expect([...own("upper")]).toEqual([6.25]);
  });

  test("of several edges at one place the one that asks least", () => {
    const other = edge(
      [
        [49, 0],
        [50, 60],
      ],
      { id: "other" },
    );
    expect(seamAt(coverings(wall([edge(sloped), other]), { rules }), 50)).toEqual(["colourEdge", 2.25, 0.25]);
    // One that does not span the seam tells nothing.
    const short = { ...other, to: inch(59) };
    expect(seamAt(coverings(wall([edge(sloped), short]), { rules }), 50)).toEqual(["colourEdge", 6.25, 0.25]);
  });

  test("a gap or a body line on the line goes before it", () => {
    const list = (type: Break["type"]) => coverings(wall([edge(sloped)], { breaks: [breakAt(50, { type })] }));
    expect(seamAt(list("gap"), 50)).toEqual(["break", 4, 0]);
    expect(seamAt(list("bodyLine"), 50)).toEqual(["bodyLine", 1, 1]);
  });

  test("mirrored, its path lies the other way, and all share what the farthest straying asks", () => {
    const own = wall([edge(sloped)]);
    const right: Elevation = { ...own, ...mirrorElevation(own, own.box), id: "right", mirrorOf: "left" };
    // The mirror's own edge, seen in its own frame, strays 3 in to the left at the top: the same band.
    expect(right.colourEdges[0]?.path?.map(({ x, y }) => [inches(x), inches(y)])).toEqual([
      [52, 0],
      [47, 60],
    ]);
    const list = coverings(own, { rules, mirrors: [right] });
    expect(seamAt(list, 50)).toEqual(["colourEdge", 6.25, 0.25]);
    expect(seamAt(list, 50, "right")).toEqual(["colourEdge", 6.25, 0.25]);
    // A mirror whose edge strays 4 in makes the band 8.25 in wide on both.
    const wide = {
      ...right,
      colourEdges: [
        edge([
          [46, 0],
          [50, 60],
        ]),
      ],
    };
    expect(seamAt(coverings(own, { rules, mirrors: [wide] }), 50)).toEqual(["colourEdge", 8.25, 0.25]);
  });

  test("along a border the facing windows share as much", () => {
    const level = edge(
      [
        [0, 29],
        [100, 32],
      ],
      { axis: "y", at: inch(30), from: 0, to: inch(100) },
    );
    const sections = [section("lower", [0, 0, 100, 30]), section("upper", [0, 30, 100, 60])];
    const [covering] = coverings(wall([level], { sections }));
    const border = covering?.seams.find(({ border: isBorder }) => isBorder);
    expect([border?.kind, inches(border?.overlap ?? 0), inches(border?.finishedOverlap ?? 0)]).toEqual([
      "colourEdge",
      4.25,
      0.25,
    ]);
  });
});

describe("film that meets edge to edge", () => {
  const window: Film = { ...plainFilm, joint: "butted" };
  const wall = (given: Partial<Elevation> = {}) =>
    elevationOf(rectangle(0, 0, 100, 60), 0, { sections: [section("whole", [0, 0, 100, 60])], ...given });

  test("windows touch: full width first, no overlap, the left one named on top", () => {
    const [covering] = coverings(wall(), { roll: 54, films: [window] });
    expect(across(covering as Covering)).toEqual([
      [0, 53],
      [53, 100],
    ]);
    expect(covering?.seams).toMatchObject([
      { at: inch(53), kind: "open", overlap: 0, finishedOverlap: 0, top: "left/whole/1" },
    ]);
  });

  test("two printable widths are two panels to the tick, a tick more three", () => {
    const wide = (width: number) => {
      const outline = rectangle(0, 0, width, 60);
      return elevationOf(outline, 0, { sections: [section("whole", [0, 0, width, 60])] });
    };
    expect(coverings(wide(106), { roll: 54, films: [window] })[0]?.panels.length).toBe(2);
    expect(coverings(wide(106 + 1 / TICKS_PER.in), { roll: 54, films: [window] })[0]?.panels.length).toBe(3);
  });

  test("a gap is trimmed as ever; a colour edge asks for as far as it strays on both sides", () => {
    const gap = coverings(wall({ breaks: [breakAt(50)] }), { films: [window] });
    expect(seamAt(gap, 50)).toEqual(["break", 4, 0]);
    const bodyLine = coverings(wall({ breaks: [breakAt(50, { type: "bodyLine" })] }), { films: [window] });
    expect(seamAt(bodyLine, 50)).toEqual(["bodyLine", 0, 0]);
    const rules = { maxOpenSeams: 0 };
    const flame = edge([
      [48, 0],
      [53, 60],
    ]);
    expect(seamAt(coverings(wall({ colourEdges: [flame] }), { rules, films: [window] }), 50)).toEqual([
      "colourEdge",
      6,
      0,
    ]);
    const straight = coverings(wall({ colourEdges: [edge(null)] }), { rules, films: [window] });
    expect(seamAt(straight, 50)).toEqual(["colourEdge", 0, 0]);
  });

  test("beside a mirror whose film laps, both share what the lapped one asks", () => {
    const lapped = { ...plainFilm, id: "lapped" };
    const own = wall();
    const right: Elevation = {
      ...own,
      ...mirrorElevation(own, own.box),
      id: "right",
      mirrorOf: "left",
      film: "lapped",
    };
    const [covering] = coverings(own, { roll: 54, films: [window, lapped], mirrors: [right] });
    const shared = covering?.seams.map(({ elevation, overlap, finishedOverlap }) => [
      elevation,
      inches(overlap),
      inches(finishedOverlap),
    ]);
    expect(shared).toEqual([
      ["left", 1, 0],
      ["right", 1, 1],
    ]);
  });

  test("a border between sections meets edge to edge", () => {
    const sections = [section("lower", [0, 0, 50, 30]), section("upper", [0, 30, 50, 60])];
    const source = elevationOf(rectangle(0, 0, 50, 60), 0, { sections });
    const [covering] = coverings(source, { films: [window] });
    expect(covering?.panels.map(({ window: { y0, y1 } }) => [inches(y0), inches(y1)])).toEqual([
      [0, 30],
      [30, 60],
    ]);
    expect(covering?.seams).toMatchObject([{ border: true, overlap: 0, finishedOverlap: 0 }]);
  });

  test("toward a fill only where its film does so too", () => {
    const source = elevationOf(rectangle(0, 0, 100, 56), 0, {
      sections: [section("whole", [0, 0, 100, 56], { direction: "horizontal" })],
      fill: [{ edge: "bottom", maxDepth: inch(10), film: "black" }],
    });
    const filled = (joint: Film["joint"]) => {
      const black: Film = { ...plainFilm, id: "black", pricePerArea: 0.001, laminatePricePerArea: 0, joint };
      return coverings(source, { roll: 54, films: [window, black] })
        .flatMap(({ seams }) => seams)
        .filter(({ border }) => border)
        .map(({ overlap, finishedOverlap }) => `${inches(overlap)} ${inches(finishedOverlap)}`);
    };
    expect(new Set(filled("butted"))).toEqual(new Set(["0 0"]));
    expect(new Set(filled("lapped"))).toEqual(new Set(["1 1"]));
  });

  test("a seam may run along the edge of lettering but not inside it", () => {
    const word = (x0: number, x1: number) => ({
      id: "name",
      label: "Library",
      box: boxOf(x0, 10, x1, 40),
      rule: "never" as const,
      reason: "lettering",
    });
    // On 53 in a seam must lie from 47 to 53; lettering leaves 49 as the only place.
    const [covering] = coverings(wall({ keepClear: [word(40, 49), { ...word(49, 60), id: "more" }] }), {
      roll: 54,
      films: [window],
    });
    expect(covering?.seams.map(({ at }) => inches(at))).toEqual([49]);
    expect(() => coverings(wall({ keepClear: [word(46, 100)] }), { roll: 54, films: [window] })).toThrow("Library");
  });
});

describe("seams that count by height and artwork", () => {
  const columnsOf = (values: number[], given: Partial<SeamMap> = {}): SeamMap => ({
    x0: 0,
    y0: 0,
    cell: inch(1),
    columns: values.length,
    rows: 1,
    upright: Uint8Array.from(values),
    level: Uint8Array.from(values),
    ...given,
  });
  const busy = (free: number) => Array.from({ length: 100 }, (_, i) => (i === free ? 0 : 255));

  test("an upright seam goes where the artwork hides it", () => {
    // One row of cells over 60 in: 5 times the length anywhere but in column 49; on 53 in a seam must lie from 47.5 to 52.5.
    const map = columnsOf(busy(49), { cell: inch(1), y0: 0 });
    const high = {
      ...map,
      rows: 60,
      upright: Uint8Array.from({ length: 6000 }, (_, i) => map.upright[i % 100] as number),
    };
    const source = elevationOf(rectangle(0, 0, 100, 60), 0, { seamMap: { ...high, level: high.upright }, count: 2 });
    const upright = { ...source, sections: [section("whole", [0, 0, 100, 60])] };
    const [covering] = coverings(upright, { roll: 54 });
    const at = inches(covering?.seams[0]?.at as number);
    expect(at >= 49 && at < 50).toBe(true);
    expect(inches(covering?.measures.visibleLength as number)).toBe(2 * 60);
    // Anywhere else it counts 60 x 5, twice.
    const [elsewhere] = coverings(
      { ...upright, keepClear: [{ id: "n", label: "n", box: boxOf(48, 0, 51, 60), rule: "never", reason: "logo" }] },
      { roll: 54 },
    );
    expect(inches(elsewhere?.measures.visibleLength as number)).toBe(2 * 300);
  });

  test("also on a mirror, whose own artwork counts", () => {
    const map = (free: number) => {
      const row = busy(free);
      const all = Uint8Array.from({ length: 6000 }, (_, i) => row[i % 100] as number);
      return columnsOf(row, { rows: 60, upright: all, level: all });
    };
    const own = elevationOf(rectangle(0, 0, 100, 60), 0, {
      seamMap: map(49),
      sections: [section("whole", [0, 0, 100, 60])],
    });
    // Column 50 of the mirror lies where column 49 of its source does: both are free of artwork only there.
    const right: Elevation = {
      ...own,
      ...mirrorElevation(own, own.box),
      id: "right",
      mirrorOf: "left",
      seamMap: map(50),
    };
    const [covering] = coverings(own, { roll: 54, mirrors: [right] });
    expect(inches(covering?.measures.visibleLength as number)).toBe(120);
    const apart = { ...right, seamMap: map(49) };
    const [other] = coverings(own, { roll: 54, mirrors: [apart] });
    expect(inches(other?.measures.visibleLength as number)).toBe(360);
  });

  test("a level seam goes up out of sight", () => {
    // 100 in high on 53 in: a seam from 47.5 to 52.5 over the ground at 0; up to 51 it counts three times.
    const source = elevationOf(rectangle(0, 0, 60, 100), 0, {
      sections: [section("whole", [0, 0, 60, 100], { direction: "horizontal" })],
    });
    const rules = { heightZones: [{ from: 0, to: inch(51), weight: 3 }] };
    const [covering] = coverings(source, { roll: 54, rules });
    expect(inches(covering?.seams[0]?.at as number)).toBeGreaterThanOrEqual(51);
    expect(inches(covering?.measures.visibleLength as number)).toBe(60);
    // With the ground at 2 the zone ends at 53, and every place counts alike.
    const [raised] = coverings({ ...source, ground: inch(2) }, { roll: 54, rules });
    expect(inches(raised?.measures.visibleLength as number)).toBe(180);
  });

  test("a border counts by its height too, a break not at all", () => {
    const sections = [section("lower", [0, 0, 50, 30]), section("upper", [0, 30, 50, 60])];
    const source = elevationOf(rectangle(0, 0, 50, 60), 0, { sections });
    const rules = { heightZones: [{ from: inch(30), to: inch(40), weight: 2 }] };
    const [covering] = coverings(source, { rules });
    expect(inches(covering?.measures.visibleLength as number)).toBe(100);
    expect(covering?.measures.costEstimate).toBeGreaterThan(coverings(source)[0]?.measures.costEstimate as number);
    const hidden = { ...source, breaks: [breakAt(30, { axis: "y", to: inch(50) })] };
    expect(coverings(hidden, { rules })[0]?.measures.visibleLength).toBe(0);
  });
});
