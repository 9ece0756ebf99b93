import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Instance, Plan, Run, Shortfall } from "../../core/index.ts";
import { seededRandom, ticksTo } from "../../core/index.ts";
import { shortfalls } from "../../core/shortfalls.ts";
import { shortfallsRight } from "../../core/verifying/checks/shortfallsRight.ts";
import { jobOf } from "../../core/verifying/job.ts";
import { dataFile } from "../support/dataFile.ts";
import { instanceOf, planJob } from "../support/planJob.ts";
import { randomJob } from "../support/randomJob.ts";

type Part = Record<string, unknown>;

const rectangle = (wide: number, high: number) => [
  [0, 0],
  [wide, 0],
  [wide, high],
  [0, high],
];
const wall = (wide: number, high: number, more: Part = {}): Part => ({
  id: "wall",
  film: "cast",
  outline: rectangle(wide, high),
  ...more,
});
const cast = (more: Part = {}): Part => ({
  id: "cast",
  rollWidths: [54],
  edgeMargin: 0.5,
  pricePerArea: 0.01,
  newRolls: null,
  ...more,
});
const rules = {
  bleed: 3,
  overlap: 1,
  colourEdgeOverlap: 0.25,
  trimOverlap: 4,
  cutGap: 1,
  leader: 12,
  trailer: 6,
  seamPricePerLength: 0,
  avoidPenalty: 0,
  panelPrice: 0,
};
const wallJob = (elevations: Part[], more: Part = {}): Part => ({
  format: "lapwright-job",
  version: 1,
  name: "Clinic wall",
  units: "in",
  elevations,
  films: [cast()],
  rules,
  ...more,
});

const noPlan: Pick<Plan, "layouts" | "chosen"> = { layouts: [], chosen: "" };
const run = (stop: Run["stop"] = () => false): Run => ({ random: seededRandom(1), stop, report: () => {}, work: null });
const found = (data: Part): Shortfall[] => shortfalls(instanceOf(data), noPlan, run());
const inches = (ticks: number): number => ticksTo(ticks, "in");

/** What is told of each way, in inches; cost to the cent. */
const told = (shortfall: Shortfall | undefined) =>
  (shortfall?.choices ?? []).map(({ way, film, rollWidth, panels, seamLength, filmArea, cost }) => [
    way,
    film,
    inches(rollWidth),
    panels,
    inches(seamLength),
    Number(filmArea.toFixed(6)),
    Number(cost.toFixed(6)),
  ]);

describe("a wall of 105 by 40, which two upright panels of 54 in film leave 6 in short of", () => {
  // With bleed 111 by 46. Two panels of 53 share 1: 105, so that 6 are left bare, less than 53 / 3.
  const films = [cast({ rollWidths: [54, 60] }), { ...cast(), id: "black", name: "Matt black", pricePerArea: 0.005 }];
  const data = wallJob([wall(105, 40)], { films });
  const all = found(data);

  test("is told once: on 60 in one full panel leaves 52, lengthwise one panel covers it", () => {
    expect(
      all.map(({ elevation, section, rollWidth, direction, panels, short }) => [
        elevation,
        section,
        inches(rollWidth),
        direction,
        panels,
        inches(short),
      ]),
    ).toEqual([["wall", "whole", 54, "vertical", 2, 6]]);
  });

  test("with what each way comes to, worked out by hand", () => {
    expect(told(all[0])).toEqual([
      // Three panels of together 111 + 2 = 113 across do not pair on 53: 3 x 46 + 2 x 1 + 18 = 158 of 54.
      ["onePanelMore", null, 54, 3, 80, 8532, 85.32],
      // 2 x 46 + 1 + 18 = 111 of 60.
      ["widerRoll", null, 60, 2, 40, 6660, 66.6],
      // One panel 46 across and 111 along: 129 of 54.
      ["otherDirection", null, 54, 1, 0, 6966, 69.66],
      // The strip is 3 1/2 deep: 105 - 3 1/2 + 1/2 from -3 are 105, two panels. It carries 3 1/2 + 3 + 1/2 = 7, lies
      // across (46) and takes 7 along: 46 + 1 + 46 + 1 + 7 + 18 = 119 of 54. Its border is 40 long, like the seam.
      ["fillSameFilm", "cast", 54, 3, 80, 6426, 64.26],
      // 46 + 1 + 46 + 18 = 111 of 54 at 0.01, and 7 + 18 = 25 of 54 at 0.005.
      ["fillOtherFilm", "black", 54, 3, 80, 5994 + 1350, 59.94 + 6.75],
    ]);
    // Needed: 105 x 40 = 4200.
    expect(all[0]?.choices.map(({ wastePercent }) => wastePercent.toFixed(6))).toEqual(
      [8532, 6660, 6966, 6426, 7344].map((area) => (100 * (1 - 4200 / area)).toFixed(6)),
    );
  });

  test("in plain words", () => {
    expect(all[0]?.choices.map(({ says }) => says)).toEqual([
      "one more panel: 3 panels of 54 in film",
      "a wider roll: 2 panels of 60 in film",
      "the other direction: 1 horizontal panel of 54 in film",
      "a strip of the same film 3 1/2 in deep along the left edge, with 2 panels of 54 in film",
      "a strip of Matt black 3 1/2 in deep along the left edge, with 2 panels of 54 in film",
    ]);
  });

  test("agrees with the plan of the same wall in the same direction", () => {
    const upright = { ...data, elevations: [wall(105, 40, { sections: [section("vertical")] })] };
    const { result } = planJob(upright, { work: 20 });
    if (result.status !== "planned") throw new Error(result.status);
    const least = (width: number) =>
      Math.min(
        ...result.plan.layouts
          .filter(({ rollWidth }) => rollWidth !== null && inches(rollWidth) === width)
          .map(({ totals }) => totals.cost.total),
      );
    expect([least(54), least(60)].map((cost) => cost.toFixed(6))).toEqual(["85.320000", "66.600000"]);
  });

  test("counts one copy, whatever the job makes, and not its loose pieces", () => {
    const badge = {
      id: "badge",
      role: "decal",
      film: "cast",
      outline: rectangle(20, 20),
      elevation: "wall",
      at: [5, 5],
    };
    const more = { ...data, elevations: [wall(105, 40, { count: 30 })], pieces: [badge] };
    expect(found(more)).toEqual(all);
  });

  test("is told of the source alone where another mirrors it", () => {
    const mirrored = { ...data, elevations: [wall(105, 40), { id: "right", mirrorOf: "wall" }] };
    expect(found(mirrored)).toEqual(all);
  });

  test("the chosen roll width comes first", () => {
    // A wall 157 long, 163 with bleed: on 54 in three panels cover 157 and leave 6; on 55 in 54 x 3 - 2 = 160 and leave 3.
    const both = instanceOf({
      ...data,
      films: [cast({ rollWidths: [54, 55] })],
      elevations: [wall(157, 40, { sections: [section("vertical", { box: [0, 0, 157, 40] })] })],
    });
    const chosen = (width: number): Pick<Plan, "layouts" | "chosen"> => {
      const { result } = planJob({ ...data, films: [cast({ rollWidths: [width] })] }, { work: 1 });
      if (result.status !== "planned") throw new Error(result.status);
      return result.plan;
    };
    const widths = (plan: Pick<Plan, "layouts" | "chosen">) =>
      shortfalls(both, plan, run()).map(({ rollWidth, short }) => [inches(rollWidth), inches(short)]);
    expect(widths(chosen(54))).toEqual([
      [54, 6],
      [55, 3],
    ]);
    expect(widths(chosen(55))).toEqual([
      [55, 3],
      [54, 6],
    ]);
  });
});

const section = (direction: string, more: Part = {}): Part => ({
  id: "whole",
  box: [0, 0, 105, 40],
  direction,
  ...more,
});

describe("what counts as a rest", () => {
  const rests = (data: Part) =>
    found(data).map(({ direction, panels, short }) => [direction, panels, Number(inches(short).toFixed(6))]);
  const upright = (wide: number, more: Part = {}) => {
    const sections = [{ id: "whole", box: [0, 0, wide, 40], direction: "vertical" }];
    return wall(wide, 40, { sections, ...more });
  };

  test("less than a third of a panel, and more than nothing", () => {
    // Two panels cover 105; a third of 53 is 17 2/3. With bleed 105, 105 1/16, 122 5/8 and 122 11/16.
    expect(rests(wallJob([upright(99)]))).toEqual([]);
    expect(rests(wallJob([upright(99.0625)]))).toEqual([["vertical", 2, 0.0625]]);
    expect(rests(wallJob([upright(116.625)]))).toEqual([["vertical", 2, 17.625]]);
    expect(rests(wallJob([upright(116.6875)]))).toEqual([]);
  });

  test("butted panels share nothing: two cover 106", () => {
    expect(rests(wallJob([upright(105)], { films: [cast({ joint: "butted" })] }))).toEqual([["vertical", 2, 5]]);
  });

  test("a section may be narrower than the film allows, and share a border", () => {
    // Left section 0 to 70, at most 40 across: 3 + 70 + 1/2 (half the overlap at the border) = 73 1/2 less 40 leave 33 1/2,
    // too much; at most 66: 7 1/2.
    const parts = (maxAcross: number) => [
      { id: "left", box: [0, 0, 70, 40], direction: "vertical", maxAcross },
      { id: "right", box: [70, 0, 105, 40], direction: "vertical" },
    ];
    const films = [cast({ rollWidths: [72] })];
    const of = (maxAcross: number) => found(wallJob([wall(105, 40, { sections: parts(maxAcross) })], { films }));
    expect(of(40)).toEqual([]);
    const [shortfall] = of(66);
    expect([shortfall?.section, shortfall?.panels, inches(shortfall?.short ?? 0)]).toEqual(["left", 1, 7.5]);
    // A strip lies along the elevation's edge, not along the border: the left one alone.
    expect(shortfall?.choices.map(({ way, says }) => [way, says])).toEqual([
      ["onePanelMore", "one more panel: 2 panels of 72 in film"],
      ["fillSameFilm", "a strip of the same film 5 in deep along the left edge, with 1 panel of 72 in film"],
    ]);
  });

  test("beyond a doorway a new panel begins", () => {
    // Wall 190 by 40, doorway 90 to 130. From -3: panels to 50 and 102 cover the left part (to 93); from 127 one to 180; of
    // the 193 that the right part asks 13 are left.
    const openings = [
      {
        id: "door",
        outline: [
          [90, 0],
          [130, 0],
          [130, 40],
          [90, 40],
        ],
      },
    ];
    expect(rests(wallJob([upright(190, { openings, bleed: 3 })]))).toEqual([["vertical", 3, 13]]);
  });

  test("a section that one panel covers, and one without anything to cover, leave nothing", () => {
    expect(rests(wallJob([upright(40)]))).toEqual([]);
    const openings = [
      {
        id: "all",
        outline: [
          [-1, -1],
          [200, -1],
          [200, 60],
          [-1, 60],
        ],
      },
    ];
    expect(rests(wallJob([upright(105, { openings })]))).toEqual([]);
  });
});

describe("ways without a plan are left out", () => {
  test("a panel more where lettering lets no seam lie; a strip where its border would cut a plate", () => {
    const ways = (box: number[]) => {
      const keepClear = [{ id: "name", label: "name", box, rule: "never" }];
      const [shortfall] = found(wallJob([wall(105, 40, { keepClear, sections: [section("vertical")] })]));
      return shortfall?.choices.map(({ way }) => way);
    };
    // A strip on the left puts the seam of the two panels at 55, on the right at 49 1/2, each with half an inch to either
    // side; deeper strips, up to 17 5/8, at 49 to 55 and beyond up to 69: 30 to 75 shuts all of them out.
    expect(ways([30, 5, 75, 35])).toEqual(["onePanelMore"]);
    // A picture over everything lets no seam lie at all.
    expect(ways([1, 5, 104, 35])).toBeUndefined();
  });

  test("a strip deeper than it need be where only there its border keeps clear", () => {
    // Borders 3 1/2 from either end would cut a plate (2 to 8 from both): the strip goes to 8 1/2, its band 8 to 9.
    const keepClear = [
      { id: "plate", label: "plate", box: [2, 5, 8, 35], rule: "never" },
      { id: "number", label: "number", box: [97, 5, 103, 35], rule: "never" },
    ];
    const [shortfall] = found(wallJob([wall(105, 40, { keepClear, sections: [section("vertical")] })]));
    const strip = shortfall?.choices.find(({ way }) => way === "fillSameFilm");
    const deep = Number(/([\d ]+)(?:(\d)\/(\d))? in deep/.exec(strip?.says ?? "")?.[1]);
    expect(deep).toBeGreaterThanOrEqual(8);
    expect(deep).toBeLessThanOrEqual(53 / 3);
  });

  test("no width that can't be had, no direction that is not allowed", () => {
    const films = [cast({ rollWidths: [54, 60], newRolls: 0 })];
    const stock = [{ id: "R1", film: "cast", lot: "A", kind: "roll", width: 54, length: 900 }];
    const [shortfall] = found(wallJob([wall(105, 40, { sections: [section("vertical")] })], { films, stock }));
    expect(shortfall?.choices.map(({ way }) => way)).toEqual(["onePanelMore", "fillSameFilm"]);
  });
});

describe("strips from offcuts", () => {
  // Wall 105 by 50: panels 56 along. The strip of 7 by 56 lies along the roll, in a cut of its own: on the 54 in roll
  // 3 x 56 + 2 + 18 = 188 of 54 = 10152; with an offcut of 24 the panels take 131 of 54 = 7074, the strip 74 of 24 = 1776.
  // Panels are dear, so that nobody cuts the strip in two.
  const sections = [section("vertical", { box: [0, 0, 105, 50] })];
  const strip = (stock: Part[], more: Part, films: Part[] = [cast()]) => {
    const data = wallJob([wall(105, 50, { sections })], { films, stock, rules: { ...rules, panelPrice: 50, ...more } });
    const choice = found(data)[0]?.choices.find(({ way }) => way === "fillSameFilm");
    return [Number(choice?.filmArea.toFixed(6)), choice?.film, /, from (.*),/.exec(choice?.says ?? "")?.[1]];
  };
  const offcut = (lot: string | null, length = 80): Part => ({
    id: "O-3",
    film: "cast",
    lot,
    kind: "offcut",
    width: 24,
    length,
  });
  const roll = (lot: string): Part => ({ id: "R-1", film: "cast", lot, kind: "roll", width: 54, length: 900 });

  test("are taken where lots are free and they hold the strip", () => {
    expect(strip([offcut(null)], { oneLot: "none" })).toEqual([8850, "cast", "offcut O-3"]);
    expect(strip([offcut(null, 73)], { oneLot: "none" })).toEqual([10152, "cast", undefined]);
  });

  test("must be of the panels' lot where one is asked for", () => {
    expect(strip([roll("A"), offcut("A")], {})).toEqual([8850, "cast", "offcut O-3"]);
    expect(strip([roll("A"), offcut("B")], {})).toEqual([10152, "cast", undefined]);
    expect(strip([roll("A"), offcut(null)], {})).toEqual([10152, "cast", undefined]);
  });

  test("an offcut as wide as the panels' roll is taken like any stock", () => {
    // 74 of it are enough: 56 + 18. Two loads: 131 + 74 = 205 of 54.
    const alike = { ...offcut("A", 80), width: 54 };
    const [area, film, from] = strip([{ ...roll("A"), length: 131 }, alike], {}, [cast({ newRolls: 0 })]);
    expect([area, film, from]).toEqual([205 * 54, "cast", "offcut O-3"]);
  });
});

describe("the look-out ends", () => {
  test("when it is told to, with what was found", () => {
    const instance = instanceOf(dataFile("worked-jobs/5-long-trailer.job.json"));
    const all = shortfalls(instance, noPlan, run());
    expect(all.length).toBeGreaterThan(1);
    expect(
      shortfalls(
        instance,
        noPlan,
        run(() => true),
      ),
    ).toEqual([]);
    for (const calls of [3, 10, 30, 100]) {
      let left = calls;
      const some = shortfalls(
        instance,
        noPlan,
        run(() => --left < 0),
      );
      expect(some).toEqual(all.slice(0, some.length));
    }
  });

  test("after forty", () => {
    const walls = Array.from({ length: 41 }, (_, i) =>
      wall(105, 40, { id: `wall ${i}`, sections: [section("vertical")] }),
    );
    expect(found(wallJob(walls))).toHaveLength(40);
  });
});

test("the demo falls short on the rear alone; said again the same", () => {
  const instance = instanceOf(dataFile("demo.job.json"));
  const all = shortfalls(instance, noPlan, run());
  // Rear: 102 high, 108 with bleed; two lengthwise panels of 54 in film carry 105.
  expect(
    all.map(({ elevation, rollWidth, direction, panels, short }) => [
      elevation,
      inches(rollWidth),
      direction,
      panels,
      inches(short),
    ]),
  ).toEqual([["rear", 54, "horizontal", 2, 3]]);
  expect(shortfalls(instance, noPlan, run())).toEqual(all);
});

test("whatever the job: what is told keeps the contract", () => {
  let told = 0;
  fc.assert(
    fc.property(randomJob, (data) => {
      const instance = instanceOf(data);
      const shown = shortfalls(instance, noPlan, run());
      told += shown.length;
      const plan = { jobName: "", unit: instance.unit, seed: 1, layouts: [], frontier: [], chosen: "" };
      expect(shortfallsRight(jobOf(instance), { ...plan, shortfalls: shown })).toEqual([]);
      for (const shortfall of shown) expect(faultsOf(instance, shortfall)).toEqual([]);
    }),
    { seed: 20260511, numRuns: 25 },
  );
  expect(told).toBeGreaterThan(1);
});

/** What can't be so, whatever the plans behind it. */
function faultsOf({ elevations, films }: Instance, { elevation, rollWidth, short, choices }: Shortfall): string[] {
  const of = elevations.find(({ id }) => id === elevation);
  const film = films.find(({ id }) => id === of?.film);
  const faults: string[] = [];
  if (film === undefined || of?.mirrorOf !== null) faults.push("no such elevation, or a mirrored one");
  if (!(short > 0 && 3 * short < rollWidth)) faults.push("no small rest");
  if (choices.length === 0) faults.push("no choice");
  const order = ["onePanelMore", "widerRoll", "otherDirection", "fillSameFilm", "fillOtherFilm"];
  const places = choices.map(({ way }) => order.indexOf(way));
  if (places.some((place, i) => i > 0 && place <= (places[i - 1] as number))) faults.push("out of order");
  for (const { way, filmArea, wastePercent, cost, panels } of choices) {
    const least = film === undefined ? 0 : filmArea * Math.min(...films.map(({ pricePerArea }) => pricePerArea));
    if (cost < least * (1 - 1e-9)) faults.push(`${way} costs less than its film`);
    if (wastePercent < 0 || wastePercent > 100 || panels < 1) faults.push(`${way} can't be so`);
  }
  return faults;
}
