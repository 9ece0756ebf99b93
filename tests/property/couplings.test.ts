import fc from "fast-check";
import { expect, test } from "vitest";
import { combineSections } from "../../core/panelling/combineSections.ts";
import type { SectionOption } from "../../core/panelling/sectionOptions.ts";
import { embeddedEngine } from "../../core/programme/embeddedEngine.ts";
import type { Programme, ProgrammeRow } from "../../core/programme/programme.ts";
import { highs } from "../support/highs.ts";

/** What combining looks at in an option; the rest of one plays no part. */
const option = fc
  .record({
    area: fc.integer({ min: 1, max: 60 }),
    visible: fc.integer({ min: 0, max: 4 }),
    penalties: fc.integer({ min: 0, max: 2 }),
    open: fc.integer({ min: 0, max: 4 }),
    price: fc.integer({ min: 0, max: 40 }),
  })
  .map(({ area, visible, penalties, open, price }) => ({
    windowArea: area,
    aloneArea: area,
    cost: area + price,
    visible,
    visibleLength: 10 * visible,
    penalties,
    panels: visible + 1,
    open: [Math.min(open, visible)],
  }));

const PENALTY = 3;

/** Each section takes one of its options; at most so many open seams and so many visible ones in all. */
function programmeOf(sections: readonly (readonly Option[])[], mostOpen: number, mostVisible: number): Programme {
  const all = sections.flat();
  const sum = (amountOf: (option: Option) => number, most: number): ProgrammeRow => ({
    terms: all.map((each, variable) => ({ variable, coefficient: amountOf(each) })),
    least: null,
    most,
  });
  let first = 0;
  const one = sections.map((list): ProgrammeRow => {
    const terms = list.map((_, i) => ({ variable: first + i, coefficient: 1 }));
    first += list.length;
    return { terms, least: 1, most: 1 };
  });
  return {
    variables: all.map(({ cost, penalties }) => ({ cost: cost + PENALTY * penalties, whole: true })),
    rows: [...one, sum(({ open }) => open[0] as number, mostOpen), sum(({ visible }) => visible, mostVisible)],
  };
}
type Option = typeof option extends fc.Arbitrary<infer T> ? T : never;

test("sections combined under limits on seams cost what a 0/1 programme with these limits costs", () => {
  const met = { optimal: 0, infeasible: 0 };
  const jobs = fc.record({
    sections: fc.array(fc.array(option, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 5 }),
    mostOpen: fc.integer({ min: 0, max: 8 }),
    mostVisible: fc.integer({ min: 0, max: 10 }),
  });
  const start = {
    windowArea: 0,
    aloneArea: 0,
    cost: 0,
    visible: 0,
    visibleLength: 0,
    penalties: 0,
    panels: 0,
    apart: 0,
    handles: 0,
    open: [0],
  };
  fc.assert(
    fc.property(jobs, ({ sections, mostOpen, mostVisible }) => {
      const options = sections as unknown as SectionOption[][];
      const costs = combineSections(options, start, [mostOpen], PENALTY)
        .filter(({ visible }) => visible <= mostVisible)
        .map(({ cost, penalties }) => cost + PENALTY * penalties);
      const programme = programmeOf(sections, mostOpen, mostVisible);
      const expected =
        costs.length === 0
          ? { status: "infeasible" as const }
          : { status: "optimal" as const, objective: Math.min(...costs) };
      met[expected.status]++;
      expect(embeddedEngine(programme)).toMatchObject(expected);
      expect(highs(programme)).toMatchObject(expected);
    }),
    { seed: 20261125, numRuns: 200 },
  );
  expect(met.infeasible, JSON.stringify(met)).toBeGreaterThan(20);
  expect(met.optimal).toBeGreaterThan(80);
});
