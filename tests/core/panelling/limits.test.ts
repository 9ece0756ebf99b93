import { expect, test } from "vitest";
import { panellingLimits, widthChoices } from "../../../core/choosing/rollWidths.ts";
import type { Elevation, Film } from "../../../core/model/instance.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { boxOf, elevationOf, inch, instanceOf, plainFilm, quietRun, rectangle } from "./builders.ts";

/** Windows of the first covering on rolls of 60 in, inches, from the left. */
function windowsOf(source: Elevation, film: Film = { ...plainFilm, rollWidths: [inch(60)] }): number[][] {
  const instance = instanceOf([source], {}, [film]);
  const choice = widthChoices(instance).find(({ rollWidth }) => rollWidth === inch(60));
  if (choice === undefined) throw new Error("no roll of 60 in");
  const limits = panellingLimits(instance, choice, "vertical");
  const answer = coverGroup(instance, source, [], limits, quietRun);
  if ("reasons" in answer) throw new Error(answer.reasons.map(({ why }) => why).join(" "));
  const windows = answer.coverings[0]?.panels.map(({ window: { x0, y0, x1, y1 } }) => [x0, y0, x1, y1]) ?? [];
  return windows.map((window) => window.map((ticks) => ticks / TICKS_PER.in));
}

const wall = (width: number, height: number, maxAcross: number | null = null, given: Partial<Elevation> = {}) =>
  elevationOf(rectangle(0, 0, width, height), 0, {
    sections: [
      {
        id: "whole",
        box: boxOf(0, 0, width, height),
        direction: "vertical",
        maxAcross: maxAcross === null ? null : inch(maxAcross),
        heads: "same",
      },
    ],
    ...given,
  });

test("a section's own widest panel", () => {
  // 100 in on 59 in takes two panels; at most 40 in wide, in steps of 39, three: 40, 40 and 100 - 78 = 22.
  expect(windowsOf(wall(100, 60)).length).toBe(2);
  expect(windowsOf(wall(100, 60, 40)).map(([x0, , x1]) => (x1 as number) - (x0 as number))).toEqual([40, 40, 22]);
});

test("a laminate narrower than the film", () => {
  const film = { ...plainFilm, rollWidths: [inch(60)], laminateWidth: inch(45) };
  expect(windowsOf(wall(59, 60)).length).toBe(1);
  expect(windowsOf(wall(59, 60), film).map(([x0, , x1]) => (x1 as number) - (x0 as number))).toEqual([45, 15]);
});

test("a run no longer than the machine takes, its leader included", () => {
  // 112 in of a run less 12 in of leader leave 100 in.
  const film = { ...plainFilm, rollWidths: [inch(60)], maxRun: inch(112) };
  expect(windowsOf(wall(50, 100), film).length).toBe(1);
  expect(() => windowsOf(wall(50, 100.0625), film)).toThrow("at most 100 in");
});

test("bleed by side, and another into openings", () => {
  const bleed = { left: inch(1), right: inch(2), bottom: inch(3), top: inch(4), openings: inch(6) };
  expect(windowsOf(wall(40, 60, null, { bleed }))).toEqual([[-1, -3, 42, 64]]);
  // An opening from below up to 50 in over the whole width: film reaches 6 in into it, and past the outline elsewhere.
  const door = [{ id: "door", outline: rectangle(-1, -1, 41, 50) }];
  expect(windowsOf(wall(40, 60, null, { bleed, openings: door }))).toEqual([[-1, 44, 42, 64]]);
});
