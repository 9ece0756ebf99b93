import { describe, expect, test } from "vitest";
import { seamReasons } from "../../../core/fitting/seamReasons.ts";
import type { Break, ColourEdge, Elevation, Hold } from "../../../core/model/instance.ts";
import type { FoundSection, Panel, Seam } from "../../../core/model/plan.ts";
import { boxOf, inch, instanceOf, plainFilm, polygonOf, rectangle } from "../panelling/builders.ts";
import { borderOf, panelOf, regionsOf, seamOf, wallOf } from "./builders.ts";

/** Panels of a 40 in high wall side by side, bleed 3, each given by where it begins and ends, inches. */
const row = (...ends: readonly (readonly [number, number])[]): Panel[] =>
  ends.map(([from, to], i) => panelOf(`${i + 1}`, boxOf(from, -3, to, 43)));

const reasons = (
  elevations: readonly Elevation[],
  panels: readonly Panel[],
  seams: readonly Seam[],
  found: readonly FoundSection[] = [],
): string[] =>
  seamReasons(
    instanceOf(elevations),
    regionsOf(elevations),
    panels,
    seams,
    new Map([[plainFilm.id, inch(54)]]), // 53 in printable
    found,
  );

const line = (type: Break["type"], at: number, over: Partial<Break> = {}): Break => ({
  id: "line",
  axis: "x",
  at: inch(at),
  from: 0,
  to: inch(40),
  type,
  width: 0,
  mustSplit: false,
  ...over,
});

const outline = rectangle(0, 0, 90, 40);
/** Seam at 40, overlap 1: panels of 43.5 and 53.5 - less than full on a roll of 54 only for the first. */
const halves = row([-3, 40.5], [39.5, 88]);
const seam = seamOf("x", 40, "1", "2");
const at40 = (given: Partial<Elevation>, over: Partial<Seam> = {}, panels = halves) =>
  reasons([wallOf(outline, 3, given)], panels, [{ ...seam, ...over }])[0];

describe("what hides a seam", () => {
  test("a gap, a moulding, a body line, a colour edge, each by its name", () => {
    const broken = { kind: "break" } as const;
    expect(at40({ breaks: [line("gap", 40, { id: "door-1" })] }, broken)).toBe(
      "In gap 'door-1', where both films are trimmed",
    );
    expect(at40({ breaks: [line("moulding", 40, { id: "belt" })] }, broken)).toBe(
      "At moulding 'belt', where both films end",
    );
    expect(at40({ breaks: [line("bodyLine", 40, { id: "crease" })] }, { kind: "bodyLine" })).toBe(
      "On body line 'crease', which hides it",
    );
    const edge: ColourEdge = { id: "band", axis: "x", at: inch(40), from: 0, to: inch(40), path: null };
    expect(at40({ colourEdges: [edge] }, { kind: "colourEdge" })).toBe("Along colour edge 'band', which hides it");
    const path = [
      { x: inch(39), y: 0 },
      { x: inch(41), y: inch(40) },
    ];
    expect(at40({ colourEdges: [{ ...edge, path }] }, { kind: "colourEdge" })).toBe(
      "Over colour edge 'band', which hides it",
    );
  });

  test("one that spans it, not a shorter one on the same line", () => {
    const short = line("gap", 40, { id: "flap", to: inch(20) });
    const whole = line("gap", 40, { id: "door" });
    expect(at40({ breaks: [short, whole] }, { kind: "break" })).toContain("'door'");
  });

  test("that the job asks for it, or a hold, is said too", () => {
    const hold: Hold = { id: "h1", kind: "seam", axis: "x", at: inch(40), section: null };
    expect(at40({ breaks: [line("gap", 40, { mustSplit: true })], holds: [hold] }, { kind: "break" })).toBe(
      "In gap 'line', where both films are trimmed; the job asks for a seam here; held here by 'h1'",
    );
    expect(at40({ holds: [hold] })).toBe("Open: held here by 'h1'");
    expect(at40({ holds: [{ ...hold, section: "other" }] })).not.toContain("held");
  });

  test("an avoided zone that it crosses is said; one that it touches is not", () => {
    const zone = (x0: number, x1: number) =>
      ({ id: "z", label: "BREAD", box: boxOf(x0, 10, x1, 20), rule: "avoid", reason: "lettering" }) as const;
    // Half the overlap is 1/2: the band runs from 39 1/2 to 40 1/2.
    expect(at40({ keepClear: [zone(40, 60)] })).toContain("; crosses lettering 'BREAD', which it should avoid");
    expect(at40({ keepClear: [zone(40.5, 60)] })).not.toContain("crosses");
    expect(at40({ keepClear: [zone(40, 60)], breaks: [line("gap", 40)] }, { kind: "break" })).not.toContain("crosses");
    expect(at40({ keepClear: [zone(39, 60)], breaks: [line("gap", 40)] }, { kind: "break" })).toContain("crosses");
  });
});

describe("why an open seam lies just there", () => {
  test("a panel beside it is full", () => {
    expect(at40({}, {}, row([-12.5, 40.5], [39.5, 88]))).toBe(
      "Open: a panel of 53 in reaches no farther from the left",
    );
    expect(at40({}, {}, row([-3, 40.5], [39.5, 92.5]))).toBe(
      "Open: a panel of 53 in reaches no farther from the right",
    );
    // Less than a sixteenth short of full is full, since seams lie on sixteenths.
    const nearly = row([-3, 40.5], [39.5, 92.4375]);
    expect(at40({}, {}, nearly)).not.toContain("reaches no farther");
  });

  test("the section allows no wider one", () => {
    const sections = [
      { id: "whole", box: boxOf(0, 0, 90, 40), direction: "vertical", maxAcross: inch(43.5), heads: "same" },
    ] as const;
    expect(at40({ sections })).toBe(
      "Open: a panel of 43 1/2 in, the widest allowed here, reaches no farther from the left",
    );
  });

  test("a hold keeps the width of the panel beside it", () => {
    const hold: Hold = { id: "w", kind: "width", axis: "x", at: inch(50), width: inch(48.5), section: null };
    expect(at40({ holds: [hold] })).toBe("Open: hold 'w' keeps the panel to its right 48 1/2 in wide");
    expect(at40({ holds: [{ ...hold, at: inch(20) }] })).not.toContain("hold");
  });

  test("both share the width equally", () => {
    expect(at40({}, {}, row([-3, 40.5], [39.5, 83]))).toBe("Open: equal widths of 43 1/2 in on both sides");
    expect(at40({}, {}, row([-3, 40.5], [39.5, 83.125]))).toBe("Open: nearly equal widths, 43 1/2 in and 43 5/8 in");
  });

  test("lettering or an obstacle begins beside it; of several the nearest", () => {
    const zone = (id: string, x0: number, x1: number, y0 = 10) =>
      ({ id, label: id, box: boxOf(x0, y0, x1, y0 + 10), rule: "never", reason: "logo" }) as const;
    expect(at40({ keepClear: [zone("far", 44, 60), zone("sun", 20, 36.5)] })).toBe("Open: clear of logo 'sun' by 3 in");
    expect(at40({ keepClear: [zone("sun", 40.5, 60)] })).toBe("Open: just clear of logo 'sun'");
    expect(at40({ keepClear: [zone("high", 40.5, 60, 41)] })).not.toContain("clear of");
    const handle = { id: "h", kind: "handle", box: boxOf(42, 10, 50, 14), rule: "avoid", clearance: inch(1) } as const;
    expect(at40({ obstacles: [handle] })).toBe("Open: clear of handle 'h' by 1/2 in");
  });

  test("it runs over an opening", () => {
    const openings = [{ id: "window", outline: rectangle(30, 10, 60, 32) }];
    expect(at40({ openings })).toBe("Open: it runs over opening 'window', so that only 18 in of it shows");
  });

  test("it lies where panels change their length", () => {
    const openings = [{ id: "arch", outline: rectangle(40.5, -1, 60, 4) }];
    expect(at40({ openings })).toBe("Open: at the side of opening 'arch', where panels change their length");
    const stepped = polygonOf([0, 0], [90, 0], [90, 40], [40, 40], [40, 30], [0, 30]);
    expect(reasons([wallOf(stepped, 3)], halves, [seam])[0]).toBe(
      "Open: at a corner of the outline, where panels change their length",
    );
  });

  test("nothing within reach hides it; else the panels on both sides", () => {
    // With full panels it might lie from 88 - 53 + 1/2 to -3 + 53 - 1/2.
    expect(at40({})).toBe("Open: nothing to hide it lies from 35 1/2 in to 49 1/2 in, where panels reach");
    expect(at40({ breaks: [line("bodyLine", 49.5)] })).toBe("Open: between panels of 43 1/2 in and 48 1/2 in");
    expect(at40({ breaks: [line("bodyLine", 50)] })).toContain("nothing to hide it");
  });
});

describe("borders", () => {
  const sections = [
    { id: "lower", box: boxOf(0, 0, 90, 20), direction: "horizontal", maxAcross: null, heads: "same" },
    { id: "upper", box: boxOf(0, 20, 90, 40), direction: "horizontal", maxAcross: null, heads: "same" },
  ] as const;
  const panels = [
    panelOf("l", boxOf(-3, -3, 93, 20.5), { section: "lower", direction: "horizontal" }),
    panelOf("u", boxOf(-3, 19.5, 93, 43), { section: "upper", direction: "horizontal" }),
  ];
  const border = borderOf("y", 20, 0, 90, "lower", "upper");

  test("as given, with what hides it", () => {
    const wall = wallOf(outline, 3, { sections });
    expect(reasons([wall], panels, [border])).toEqual(["Border of sections 'lower' and 'upper' as given"]);
    const belt = line("moulding", 20, { id: "belt", axis: "y", to: inch(90) });
    expect(reasons([{ ...wall, breaks: [belt] }], panels, [{ ...border, kind: "break" }])).toEqual([
      "Border of sections 'lower' and 'upper' as given, at moulding 'belt', where both films end",
    ]);
  });

  test("found", () => {
    const found = sections.map(({ id, box, direction }) => ({ elevation: "wall", id, box, direction, why: "belt" }));
    expect(reasons([wallOf(outline, 3)], panels, [border], found)).toEqual([
      "Border of the sections 'lower' and 'upper' found",
    ]);
  });

  test("of a fill, with its depth", () => {
    const wall = wallOf(outline, 3, { fill: [{ edge: "top", maxDepth: inch(8), film: "cast" }] });
    const filled = [panelOf("w", boxOf(-3, -3, 50, 33)), panelOf("t", boxOf(-3, 32, 93, 43), { section: "fill-top" })];
    expect(reasons([wall], filled, [borderOf("y", 32.5, 0, 90, "whole", "fill-top")])).toEqual([
      "Inner edge of the top fill, 7 1/2 in deep",
    ]);
  });
});

describe("two sides", () => {
  const left = wallOf(outline, 3, { id: "left", name: "Left side", breaks: [line("gap", 40, { id: "door" })] });
  const right: Elevation = { ...left, id: "right", name: "Right side", mirrorOf: "left", breaks: [] };
  const on = (elevation: string, items: readonly Panel[]) =>
    items.map((panel) => ({ ...panel, elevation, id: `${elevation}${panel.id}` }));
  const seams: Seam[] = [
    { ...seamOf("x", 40, "left1", "left2"), elevation: "left", kind: "break" },
    { ...seamOf("x", 50, "right1", "right2"), elevation: "right" },
  ];
  const panels = [...on("left", halves), ...on("right", row([2, 50.5], [49.5, 93]))];

  test("open here because it repeats one that is hidden there", () => {
    expect(reasons([left, right], panels, seams)[1]).toBe(
      "Open here, as it repeats 'Left side', where it lies in gap 'door', where both films are trimmed",
    );
  });

  test("a side that follows says so where it keeps the place", () => {
    const follower: Elevation = { ...right, mirror: "follow" };
    expect(reasons([left, follower], panels, seams)[1]).toBe("Open: at the same place as on 'Left side'");
    const moved = seams.map((one) => (one.elevation === "right" ? { ...one, at: inch(51) } : one));
    expect(reasons([left, follower], panels, moved)[1]).not.toContain("same place");
  });
});
