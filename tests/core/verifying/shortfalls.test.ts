import { describe, expect, test } from "vitest";
import { type Document, elevationE, halvesOfE, rectangle, rulesBrokenBy, smallJob, TICK } from "./support.ts";

/**
 * The elevation is 100 x 20 on film 60 wide with bleed 1 and overlap 1: 102 are needed across upright panels. One full
 * panel covers 60 of them and leaves 42; lying ones are 22 across and never fall short.
 */
const films = [
  { id: "f", rollWidths: [60, 70], pricePerArea: 0.01, lay: "two-way" },
  { id: "g", rollWidths: [30], pricePerArea: 0.02, lay: "any" },
];
const job = (more: Document = {}, over: Document = {}) => smallJob([elevationE(more)], { films, ...over });
const halves = halvesOfE(0.5);

const choice = (way: string, more: Document = {}): Document => ({
  way,
  says: "in words",
  film: null,
  rollWidth: 60,
  panels: 2,
  seamLength: 20,
  filmArea: 5000,
  wastePercent: 40,
  cost: 100,
  ...more,
});
const choices = [
  choice("onePanelMore"),
  choice("widerRoll", { rollWidth: 70 }),
  choice("otherDirection"),
  choice("fillSameFilm", { film: "f" }),
  choice("fillOtherFilm", { film: "g" }),
];
const shortfall = (more: Document = {}): Document => ({
  elevation: "E",
  section: "whole",
  rollWidth: 60,
  direction: "vertical",
  panels: 1,
  short: 42,
  choices,
  ...more,
});
const broken = (shortfalls: Document[], of: Document = job()): string[] =>
  rulesBrokenBy(of, { ...halves, planParts: { shortfalls } });

describe("where full panels fall short", () => {
  test("they do by what the section needs beyond them", () => {
    expect(broken([])).toEqual([]);
    expect(broken([shortfall()])).toEqual([]);
    // 70 of 102.
    expect(broken([shortfall(), shortfall({ rollWidth: 70, short: 32, choices: [] })])).toEqual([]);
  });
  test.each([
    ["by a tick more", { short: 42 + TICK }],
    ["by a tick less", { short: 42 - TICK }],
    ["by nothing", { short: 0 }],
    ["after two panels", { panels: 2, short: 0.5 }],
    ["where they don't", { direction: "horizontal", short: 1 }],
    ["on film that is not that wide", { rollWidth: 65, short: 37 }],
    ["in a section that is not there", { section: "upper" }],
    ["on an elevation that is not there", { elevation: "Z" }],
  ])("%s is refused", (_, more) => {
    expect(broken([shortfall(more)])).toEqual(["shortfallsRight"]);
  });
  test("told once each", () => {
    expect(broken([shortfall(), shortfall()])).toEqual(["shortfallsRight"]);
  });
  test("a section's greatest width, direction and borders count", () => {
    // 30 across: 30, then 29 more each; three cover 88 of 102.
    const narrow = [{ id: "whole", box: [0, 0, 100, 20], direction: "either", maxAcross: 30 }];
    const drawn = halvesOfE(0.5);
    const only = (of: Document, told: Document): string[] =>
      rulesBrokenBy(of, { ...drawn, planParts: { shortfalls: [told] } }).filter((rule) => rule === "shortfallsRight");
    expect(only(job({ sections: narrow }), shortfall({ panels: 3, short: 14 }))).toEqual([]);
    expect(only(job({ sections: narrow }), shortfall({ panels: 2, short: 43 }))).toEqual(["shortfallsRight"]);
    const lying = [{ ...narrow[0], direction: "horizontal" }];
    expect(only(job({ sections: lying }), shortfall({ panels: 3, short: 14 }))).toEqual(["shortfallsRight"]);
    // Of a front of 70 half of the border's overlap is needed beyond it: 1 + 70 + 0.5, of which 60 are covered.
    const parted = [
      { id: "front", box: [0, 0, 70, 20], direction: "either" },
      { id: "back", box: [70, 0, 100, 20], direction: "either" },
    ];
    expect(only(job({ sections: parted }), shortfall({ section: "front", short: 11.5 }))).toEqual([]);
    expect(only(job({ sections: parted }), shortfall({ section: "front", short: 12 }))).toEqual(["shortfallsRight"]);
  });
  test("beyond a doorway the next panel begins anew", () => {
    // 30 across over 0 to 40 and 60 to 100: two panels reach 58 and stand over the doorway, the third starts at 59.
    const openings = [{ id: "door", outline: rectangle(40, -1, 60, 21) }];
    const sections = [{ id: "whole", box: [0, 0, 100, 20], direction: "either", maxAcross: 30 }];
    const told = (panels: number, short: number): string[] =>
      broken([shortfall({ panels, short })], job({ openings, sections })).filter((rule) => rule === "shortfallsRight");
    expect(told(3, 12)).toEqual([]);
    expect(told(3, 14)).toEqual(["shortfallsRight"]);
  });
  test("film that meets edge to edge covers its whole width with each panel", () => {
    const butted = job({}, { films: [{ ...films[0], joint: "butted" }, films[1]] });
    const sections = [{ id: "whole", box: [0, 0, 100, 20], direction: "either", maxAcross: 30 }];
    const narrow = job({ sections }, { films: butted.films });
    const told = (of: Document, panels: number, short: number): string[] =>
      broken([shortfall({ panels, short })], of).filter((rule) => rule === "shortfallsRight");
    // 3 x 30 = 90 of 102.
    expect(told(narrow, 3, 12)).toEqual([]);
    expect(told(narrow, 3, 14)).toEqual(["shortfallsRight"]);
  });
});

describe("ways to make up for it", () => {
  const instead = (way: string, more: Document): string[] =>
    broken([shortfall({ choices: choices.map((own) => (own.way === way ? { ...own, ...more } : own)) })]);
  test.each([
    ["onePanelMore", { film: "f" }],
    ["onePanelMore", { rollWidth: 70 }],
    ["onePanelMore", { panels: 0 }],
    ["onePanelMore", { says: " " }],
    ["onePanelMore", { cost: -0.01 }],
    ["onePanelMore", { seamLength: -TICK }],
    ["onePanelMore", { filmArea: -1 }],
    ["onePanelMore", { wastePercent: 100.1 }],
    ["onePanelMore", { way: "widerRoll", rollWidth: 70 }],
    ["widerRoll", { rollWidth: 60 }],
    ["widerRoll", { rollWidth: 80 }],
    ["otherDirection", { film: "f" }],
    ["fillSameFilm", { film: "g" }],
    ["fillSameFilm", { film: null }],
    ["fillOtherFilm", { film: "f" }],
    ["fillOtherFilm", { film: "h" }],
    ["fillOtherFilm", { film: null }],
  ])("%s with %j is refused", (way, more) => {
    expect(instead(way, more)).toEqual(["shortfallsRight"]);
  });
  test("any of them may be left out, and nothing is too cheap", () => {
    expect(broken([shortfall({ choices: [] })])).toEqual([]);
    expect(instead("onePanelMore", { cost: 0, seamLength: 0, filmArea: 0, wastePercent: 100 })).toEqual([]);
  });
});
