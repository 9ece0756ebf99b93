import { expect, test } from "vitest";
import type { Layout } from "../../../core/model/plan.ts";
import { planFromFile, planToFile } from "../../../core/model/planDocument.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { boothJob, boothPlan, instanceOf, planOf } from "../verifying/support.ts";
import { elevation, film, job, panel, roll, rules, run } from "./jobs.ts";

/** What each load says of its rest: one panel of 40 x 100 on each of three copies takes 10 + 100 + 5. */
function rests(over: Parameters<typeof job>[0]) {
  const instance = job({ elevations: [elevation("left", 3)], ...over });
  const laid = layOnRolls(instance, [panel("left", 1, 40, 100)], 50, run());
  if ("reasons" in laid) throw new Error(JSON.stringify(laid.reasons));
  return laid.rolls.map(({ stock, used, leaves, keep }) => ({ stock, used, leaves, keep }));
}

test("loads of one roll leave less and less of it; without a length to keep nothing is called scrap", () => {
  const said = rests({ films: [film({ newRolls: 0, maxRun: 120 })], stock: [roll("a", 400)] });
  expect(said).toEqual([
    { stock: "a", used: 115, leaves: 285, keep: undefined },
    { stock: "a", used: 115, leaves: 170, keep: undefined },
    { stock: "a", used: 115, leaves: 55, keep: undefined },
  ]);
});

test("a rest is kept from the length on that the job names; an endless roll always", () => {
  const films = [film({ rollLength: 170, maxRun: 120 })];
  const keep = (keepLength: number) => rests({ films, rules: { ...rules, keepLength } }).map((load) => load.keep);
  expect(keep(55)).toEqual([true, true, true]);
  expect(keep(56)).toEqual([false, false, false]);
  expect(rests({ rules: { ...rules, keepLength: 1000 } })).toMatchObject([{ leaves: null, keep: true }]);
});

test("of two rolls of one lot that hold it the one that leaves least scrap is opened", () => {
  const one = {
    elevations: [elevation("left", 1)],
    films: [film({ newRolls: 0 })],
    stock: [roll("a", 130, { lot: "A" }), roll("b", 200, { lot: "A" })],
  };
  expect(rests(one)).toMatchObject([{ stock: "a", leaves: 15 }]);
  expect(rests({ ...one, rules: { ...rules, keepLength: 80 } })).toMatchObject([
    { stock: "b", leaves: 85, keep: true },
  ]);
  expect(rests({ ...one, rules: { ...rules, keepLength: 90 } })).toMatchObject([
    { stock: "a", leaves: 15, keep: false },
  ]);
});

test("the job's length is read, and what loads leave is written and read again; without either nothing is said", () => {
  expect(instanceOf(boothJob()).rules.keepLength).toBeNull();
  const withKeep = boothJob();
  withKeep.rules.keepLength = 12.5;
  expect(instanceOf(withKeep).rules.keepLength).toBe(12_700_000);
  const document = boothPlan();
  Object.assign(document.layouts[0].rolls[0], { leaves: 83, keep: true });
  document.layouts[0].rolls[2].leaves = null;
  const plan = planOf(document);
  expect((plan.layouts[0] as Layout).rolls.map(({ leaves, keep }) => [leaves, keep])).toEqual([
    [84_328_000, true],
    [undefined, undefined],
    [null, undefined],
  ]);
  const file = planToFile(plan);
  expect(file.layouts[0]?.rolls[0]).toMatchObject({ leaves: 83, keep: true });
  expect(file.layouts[0]?.rolls[1]).not.toHaveProperty("leaves");
  expect(planFromFile(file)).toEqual(plan);
});
