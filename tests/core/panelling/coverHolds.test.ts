import { describe, expect, test } from "vitest";
import type { Covering, PanellingLimits } from "../../../core/model/covering.ts";
import type { Break, Elevation, Hold, Rules } from "../../../core/model/instance.ts";
import { mirrorElevation } from "../../../core/model/mirrorElevation.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { boxOf, elevationOf, inch, instanceOf, limitsOf, plainFilm, quietRun, rectangle } from "./builders.ts";

const inches = (ticks: number) => ticks / TICKS_PER.in;

function answerOf(
  source: Elevation,
  limits: PanellingLimits,
  rules: Partial<Rules> = {},
  mirrors: readonly Elevation[] = [],
) {
  return coverGroup(instanceOf([source, ...mirrors], rules, [plainFilm]), source, mirrors, limits, quietRun);
}

function cover(...given: Parameters<typeof answerOf>): readonly Covering[] {
  const answer = answerOf(...given);
  if ("reasons" in answer) throw new Error(answer.reasons.map(({ why }) => why).join(" "));
  return answer.coverings;
}

/** The one reason, as path, ids and why. */
function reason(...given: Parameters<typeof answerOf>) {
  const answer = answerOf(...given);
  if ("coverings" in answer) throw new Error("a covering was found");
  expect(answer.reasons).toHaveLength(1);
  const [{ path, value, why, mend }] = answer.reasons as [(typeof answer.reasons)[number]];
  expect(mend).not.toBe("");
  return { path, value, why };
}

const seam = (at: number, section: string | null = null, id = "door"): Hold => ({
  id,
  section,
  kind: "seam",
  axis: "x",
  at: inch(at),
});
const noSeam = (from: number, to: number, section: string | null = null, id = "name"): Hold => ({
  id,
  section,
  kind: "noSeam",
  axis: "x",
  from: inch(from),
  to: inch(to),
});
const width = (at: number, wide: number, section: string | null = null, id = "middle"): Hold => ({
  id,
  section,
  kind: "width",
  axis: "x",
  at: inch(at),
  width: inch(wide),
});
const direction = (which: "vertical" | "horizontal", section: string | null = null): Hold => ({
  id: "way",
  section,
  kind: "direction",
  direction: which,
});

/** 120 in x 60 in, bleed 2: 124 in of film across, in panels of at most 53 in on 54 in rolls. */
const flank = (holds: readonly Hold[], given: Partial<Elevation> = {}) =>
  elevationOf(rectangle(0, 0, 120, 60), 2, { holds, ...given });
const upright = limitsOf(54, "vertical");

const seamsOf = (covering: Covering, elevation = "left") =>
  covering.seams.filter((each) => each.elevation === elevation && !each.border).map(({ at }) => inches(at));

/** Two sections side by side that meet at 50 in. */
const twoSections: Elevation["sections"] = [
  { id: "front", box: boxOf(0, 0, 50, 60), direction: "either", maxAcross: null, heads: "same" },
  { id: "back", box: boxOf(50, 0, 120, 60), direction: "either", maxAcross: null, heads: "same" },
];

describe("holds are kept", () => {
  test("without any, full panels from the left: seams at 50.5 and 102.5", () => {
    // The first ends at -2 + 53 = 51, half an inch past its seam; each next adds 53 - 1 = 52.
    expect(seamsOf(cover(flank([]), upright)[0] as Covering)).toEqual([50.5, 102.5]);
  });

  test("a seam off every grid, in each covering and both directions asked", () => {
    const at = 60 + 1 / 1024;
    for (const preferred of ["vertical", "horizontal", null] as const) {
      for (const covering of cover(flank([seam(at)]), limitsOf(54, preferred))) {
        expect(covering.panels.every((panel) => panel.direction === "vertical")).toBe(true);
        expect(covering.seams.map((each) => each.at)).toContain(inch(at));
      }
    }
  });

  test("a stretch without seams, its ends included", () => {
    for (const covering of cover(flank([noSeam(50, 51)]), upright)) {
      expect(seamsOf(covering).some((at) => at >= 50 && at <= 51)).toBe(false);
    }
    // Seams are at most 53 - 1 in apart: the last sixteenth below 34.1 in is 34.0625, and from there 86.0625 is in reach.
    expect(seamsOf(cover(flank([noSeam(34.1, 85.9)]), upright)[0] as Covering)[0]).toBe(34.0625);
  });

  test("a width, to the tick, for the panel that holds the place", () => {
    const wide = 20 + 1 / 1024;
    for (const covering of cover(flank([width(60, wide)]), upright)) {
      const after = covering.seams.findIndex(({ at }) => at > inch(60));
      expect(after).toBeGreaterThan(0);
      expect(covering.panels[after]?.across).toBe(inch(wide));
    }
  });

  test("a width of the first and of the last panel counts bleed", () => {
    for (const covering of cover(flank([width(0.5, 40), width(119.5, 30, null, "last")]), upright)) {
      // 40 = 2 + at + 0.5; 30 = 120 - at + 2 + 0.5.
      expect(seamsOf(covering).at(0)).toBe(37.5);
      expect(seamsOf(covering).at(-1)).toBe(92.5);
    }
  });

  test("a direction against what the run prefers", () => {
    for (const covering of cover(flank([direction("horizontal")]), upright)) {
      expect(covering.panels.every((panel) => panel.direction === "horizontal")).toBe(true);
    }
  });

  test("for one section by name, and for all where none is named", () => {
    const parted = (hold: Hold) => flank([hold], { sections: twoSections });
    const named = cover(parted(direction("horizontal", "back")), limitsOf(54, "vertical"))[0] as Covering;
    expect(new Set(named.panels.map((panel) => `${panel.section} ${panel.direction}`))).toEqual(
      new Set(["front vertical", "back horizontal"]),
    );
    const all = cover(parted(direction("horizontal")), limitsOf(54, "vertical"))[0] as Covering;
    expect(new Set(all.panels.map((panel) => panel.direction))).toEqual(new Set(["horizontal"]));
  });

  test("a border honours a seam that names no section", () => {
    const [covering] = cover(flank([seam(50)], { sections: twoSections }), upright);
    expect(covering?.seams.some(({ border, at }) => border && inches(at) === 50)).toBe(true);
    // Stretches without seams that name a section leave borders alone.
    expect(cover(flank([noSeam(49, 51, "back")], { sections: twoSections }), upright)).not.toHaveLength(0);
  });

  test("of one member bind all that share its windows, reflected", () => {
    const source = flank([]);
    const mirror: Elevation = {
      ...source,
      ...mirrorElevation(source, source.box),
      id: "right",
      name: "Right side",
      mirrorOf: "left",
      holds: [seam(40)],
    };
    for (const covering of cover(source, upright, {}, [mirror])) {
      expect(seamsOf(covering, "right")).toContain(40);
      // Seen from the left: 120 - 40.
      expect(seamsOf(covering)).toContain(80);
    }
  });

  test("a width on a seam is that of the panel to its right, as each member sees it", () => {
    const source = flank([]);
    const mirror = (holds: readonly Hold[]): Elevation => ({
      ...source,
      ...mirrorElevation(source, source.box),
      id: "right",
      mirrorOf: "left",
      holds,
    });
    for (const covering of cover(source, upright, {}, [mirror([seam(40), width(40, 30)])])) {
      // From half an inch before 40 to 69.5, half an inch past the seam at 69; from the left 80 and 51.
      expect(seamsOf(covering, "right").slice(0, 2)).toEqual([40, 69]);
      expect(seamsOf(covering).slice(-2)).toEqual([51, 80]);
    }
    // Settled on the left, and so on the right that repeats it: both panels at the seam are 30 in wide.
    const left = flank([seam(40), width(40, 30)]);
    const right = { ...mirror([]), holds: mirrorElevation(left, left.box).holds };
    for (const covering of cover(left, upright, {}, [right])) {
      const at = seamsOf(covering);
      expect(at.slice(at.indexOf(40) - 1, at.indexOf(40) + 2)).toEqual([11, 40, 69]);
    }
  });

  test("slivers are shared out, but not by moving what is held", () => {
    // 124 in: seams at 50.5 and 102.5; held at 118 the last panel is 120 + 2 - 117.5 = 4.5 in, a sliver that has to stay.
    const [covering] = cover(flank([seam(118)]), upright);
    expect(seamsOf(covering as Covering)).toContain(118);
    expect(covering?.panels.some(({ across }) => inches(across) === 4.5)).toBe(true);
    // Without the hold on the last one, 57 in would be a full panel and 4.5 in: shared equally, but for the stretch without seams.
    const short = (holds: readonly Hold[]) => elevationOf(rectangle(0, 0, 53, 60), 2, { holds });
    expect(seamsOf(cover(short([]), upright)[0] as Covering)).toEqual([26.5]);
    for (const covering of cover(short([noSeam(20, 33)]), upright)) {
      expect(seamsOf(covering).every((at) => at < 20 || at > 33)).toBe(true);
    }
    for (const covering of cover(short([width(10, 40)]), upright)) expect(seamsOf(covering)[0]).toBe(37.5);
  });

  test("on sections as fills leave them, and not in fills", () => {
    const holds = [direction("horizontal"), noSeam(0, 120)];
    const source = flank(holds, { fill: [{ edge: "bottom", maxDepth: inch(8), film: "cast" }] });
    for (const covering of cover(source, limitsOf(60))) {
      const own = covering.panels.filter(({ role }) => role === "panel");
      expect(own.every((panel) => panel.direction === "horizontal")).toBe(true);
    }
  });

  test("by the border of a fill, as deep as the hold has it, and beside a stretch without seams", () => {
    const level = { id: "belt", section: null, axis: "y" as const };
    const source = (hold: Hold) =>
      flank([hold, direction("vertical")], { fill: [{ edge: "bottom", maxDepth: inch(8), film: "cast" }] });
    const bordersOf = (hold: Hold) =>
      cover(source(hold), upright).flatMap(({ seams }) =>
        seams.flatMap(({ border, at }) => (border ? [inches(at)] : [])),
      );
    const honouring = bordersOf({ ...level, kind: "seam", at: inch(6) });
    expect(new Set(honouring)).toEqual(new Set([6]));
    const free = bordersOf({ ...level, kind: "noSeam", from: inch(4), to: inch(8) });
    expect(free.every((at) => at < 4)).toBe(true);
  });

  test("with demanded breaks beside them", () => {
    const gap: Break = {
      id: "gap",
      axis: "x",
      at: inch(30),
      from: inch(0),
      to: inch(60),
      type: "gap",
      width: 0,
      mustSplit: true,
    };
    const [covering] = cover(flank([width(40, 30)], { breaks: [gap] }), upright);
    // Two inches past the gap, then 30 in: from 28 to 58, half an inch past the seam at 57.5.
    expect(seamsOf(covering as Covering).slice(0, 2)).toEqual([30, 57.5]);
  });
});

describe("holds that leave no plan are named", () => {
  test("a seam where another hold forbids it", () => {
    expect(reason(flank([width(10, 30, null, "nose"), noSeam(40, 80), seam(60)]), upright)).toEqual({
      path: "elevations[0].holds",
      value: ["name", "door"],
      why: "Hold 'name' forbids upright seams from 40 in to 80 in, but hold 'door' wants an upright seam at 60 in: no split does both.",
    });
  });

  test("a seam and a direction; a seam and a width; three together", () => {
    expect(reason(flank([seam(60), direction("horizontal")]), upright).value).toEqual(["door", "way"]);
    expect(reason(flank([seam(60), width(70, 30), seam(80, null, "post")]), upright).value).toEqual([
      "door",
      "middle",
      "post",
    ]);
    // Each can be had alone, the stretch by panels that run the other way.
    expect(reason(flank([seam(60), noSeam(60.1, 119)]), upright).value).toEqual(["door", "name"]);
    // From 60 a panel reaches to 112.5, its seam to 112: each stretch leaves places for one, both together none.
    const three = reason(flank([seam(60), noSeam(60.03, 86), noSeam(86, 112, null, "logo")]), upright);
    expect(three.value).toEqual(["door", "name", "logo"]);
    expect(three.why).toBe(
      "No split does what these 3 holds ask together: 'door' wants an upright seam at 60 in; 'name' forbids upright seams from 60.03 in to 86 in; 'logo' forbids upright seams from 86 in to 112 in.",
    );
  });

  const singly: readonly (readonly [string, Hold, Partial<Elevation>, RegExp])[] = [
    [
      "a width beyond the printable width",
      width(60, 70),
      {},
      /'middle' wants the vertical panel at 60 in to be 70 in wide, but a panel of film 'cast' is at most 53 in wide\.$/,
    ],
    [
      "a width beyond the section",
      width(10, 30),
      {
        outline: rectangle(0, 0, 20, 60),
        box: boxOf(0, 0, 20, 60),
        sections: [{ id: "whole", box: boxOf(0, 0, 20, 60), direction: "either", maxAcross: null, heads: "same" }],
      },
      /section 'whole' asks for no more than 24 in in all, bleed included/,
    ],
    [
      "a width less than lettering that must stay whole",
      width(60, 20),
      { keepClear: [{ id: "sign", label: "Library", box: boxOf(45, -5, 75, 65), rule: "never", reason: "lettering" }] },
      /'Library' lies there, is 30 in wide and must stay whole/,
    ],
    [
      "a seam where nothing is needed",
      seam(60),
      { openings: [{ id: "gate", outline: rectangle(55, -1, 65, 61) }] },
      /no film is needed on that line/,
    ],
    ["a seam at the end", seam(120), {}, /that is where the elevation ends/],
    ["a seam beyond the end", seam(130), {}, /the elevation does not reach so far/],
    ["a seam beyond its section", seam(30, "back"), { sections: twoSections }, /section 'back' does not reach so far/],
    [
      "a seam through lettering",
      seam(60),
      { keepClear: [{ id: "sign", label: "Library", box: boxOf(55, 10, 65, 20), rule: "never", reason: "lettering" }] },
      /would run through 'Library', which must stay whole/,
    ],
    [
      "a seam in a section that runs the other way",
      seam(60),
      {
        sections: [{ id: "whole", box: boxOf(0, 0, 120, 60), direction: "horizontal", maxAcross: null, heads: "same" }],
      },
      /the job has the panels of section 'whole' run horizontal/,
    ],
    [
      "a direction that no load is long enough for",
      direction("horizontal"),
      {},
      /'way' wants horizontal panels, but there can be none: .* up to 124 in long, but one load of film 'cast' holds at most 100 in/,
    ],
    [
      "no seams over more than a panel",
      noSeam(30, 90),
      { sections: [{ id: "whole", box: boxOf(0, 0, 120, 60), direction: "vertical", maxAcross: null, heads: "same" }] },
      /'name' forbids upright seams from 30 in to 90 in, but a panel of film 'cast' is at most 53 in wide/,
    ],
    [
      "no seams over a border",
      noSeam(45, 55),
      { sections: twoSections },
      /the border between sections 'front' and 'back' lies in that stretch/,
    ],
    [
      "no seams over a break that demands one",
      noSeam(45, 55),
      {
        breaks: [{ id: "gap", axis: "x", at: inch(50), from: 0, to: inch(60), type: "gap", width: 0, mustSplit: true }],
        sections: [{ id: "whole", box: boxOf(0, 0, 120, 60), direction: "vertical", maxAcross: null, heads: "same" }],
      },
      /break 'gap' demands a seam in that stretch/,
    ],
  ];
  for (const [name, hold, given, why] of singly) {
    test(name, () => {
      const found = reason(flank([hold], given), limitsOf(54, null, hold.kind === "direction" ? 100 : 1800));
      expect(found.value).toEqual([hold.id]);
      expect(found.why).toMatch(why);
    });
  }

  test("of a mirrored elevation by its name, in places of its own", () => {
    const source = flank([noSeam(70, 90)]);
    const mirror: Elevation = {
      ...source,
      ...mirrorElevation(source, source.box),
      id: "right",
      name: "Right side",
      mirrorOf: "left",
      holds: [seam(40)],
    };
    expect(reason(source, upright, {}, [mirror]).why).toBe(
      "Hold 'name' of elevation 'Left side' forbids upright seams from 70 in to 90 in, but hold 'door' of elevation 'Right side' wants an upright seam at 40 in: no split does both.",
    );
  });

  test("only where they are to blame", () => {
    const { box } = flank([]);
    const blocked: Partial<Elevation> = {
      sections: [{ id: "whole", box, direction: "vertical", maxAcross: null, heads: "same" }],
      keepClear: [{ id: "sign", label: "Library", box: boxOf(10, 10, 110, 50), rule: "never", reason: "lettering" }],
    };
    const answer = answerOf(flank([seam(5)], blocked), upright);
    const paths = "reasons" in answer ? answer.reasons.map(({ path }) => path) : [];
    expect(paths).toEqual(["elevations[0].keepClear[0]"]);
  });

  test("that ask for more open seams than the rules allow", () => {
    // From 40 to 100 a third seam is needed: 60 + 1 in are more than a panel.
    const holds = [seam(40), seam(80, null, "post"), seam(100, null, "rail")];
    expect(reason(flank(holds), upright, { maxOpenSeams: 2 }).value).toEqual(["door", "rail"]);
    expect(cover(flank(holds), upright, { maxOpenSeams: 3 })).not.toHaveLength(0);
  });
});
