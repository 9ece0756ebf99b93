import fc from "fast-check";
import { expect, test } from "vitest";
import { embeddedEngine } from "../../core/programme/embeddedEngine.ts";
import {
  checkValues,
  type Programme,
  type ProgrammeEngine,
  type ProgrammeRow,
} from "../../core/programme/programme.ts";
import { highs } from "../support/highs.ts";

/** A programme of whole variables and the box that holds all its values worth looking at. */
interface Boxed {
  readonly programme: Programme;
  /** Most of each variable; a variable without a limit of its own needs no more than this to satisfy every row. */
  readonly most: readonly number[];
  /** Whether the last variable may grow for ever and lowers the objective as it does. */
  readonly falls: boolean;
}

type Limits = Pick<ProgrammeRow, "least" | "most">;

/** Rows of every kind: below, above, equal, between, and without a limit. */
const limits: fc.Arbitrary<Limits> = fc.oneof(
  fc.integer({ min: -3, max: 14 }).map((most): Limits => ({ least: null, most })),
  fc.integer({ min: -6, max: 12 }).map((least): Limits => ({ least, most: null })),
  fc.integer({ min: -2, max: 12 }).map((value): Limits => ({ least: value, most: value })),
  fc
    .tuple(fc.integer({ min: -4, max: 8 }), fc.integer({ min: 0, max: 6 }))
    .map(([least, more]): Limits => ({ least, most: least + more })),
  fc.constant<Limits>({ least: null, most: null }),
);

const coefficient = fc.oneof({ weight: 2, arbitrary: fc.integer({ min: -4, max: 6 }) }, fc.constant(0));

/** Beyond any row's need: least at most 12, the boxed variables take off at most 4 x 4 x 4. */
const ENOUGH = 76;

const boxed: fc.Arbitrary<Boxed> = fc
  .record({
    costs: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 4 }),
    most: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 4, maxLength: 4 }),
    rows: fc.array(fc.record({ coefficients: fc.array(coefficient, { minLength: 4, maxLength: 4 }), limits }), {
      maxLength: 4,
    }),
    // One more variable, without a limit of its own, that can only help rows with a least.
    open: fc.option(
      fc.record({
        cost: fc.integer({ min: -3, max: 3 }),
        coefficients: fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 4, maxLength: 4 }),
      }),
    ),
  })
  .map(({ costs, most, rows, open }): Boxed => {
    const n = costs.length;
    const term = (variable: number, coefficient: number) => ({ variable, coefficient });
    return {
      programme: {
        variables: [...costs, ...(open === null ? [] : [open.cost])].map((cost) => ({ cost, whole: true })),
        rows: [
          ...rows.map(({ coefficients, limits }, i) => ({
            terms: [
              ...coefficients.slice(0, n).map((coefficient, k) => term(k, coefficient)),
              ...(open !== null && limits.most === null ? [term(n, open.coefficients[i] as number)] : []),
            ],
            ...limits,
          })),
          ...costs.map((_, k) => ({ terms: [term(k, 1)], least: null, most: most[k] as number })),
        ],
      },
      most: [...most.slice(0, n), ...(open === null ? [] : [ENOUGH])],
      falls: open !== null && open.cost < 0,
    };
  });

/** What enumerating every value of the box says. */
function bruteForce({ programme, most, falls }: Boxed): { status: string; objective?: number } {
  let best: number | null = null;
  const values = most.map(() => 0);
  for (;;) {
    const checked = checkValues(programme, values);
    if ("objective" in checked && (best === null || checked.objective < best)) best = checked.objective;
    let k = 0;
    while (k < most.length && values[k] === most[k]) values[k++] = 0;
    if (k === most.length) break;
    values[k] = (values[k] as number) + 1;
  }
  if (best === null) return { status: "infeasible" };
  return falls ? { status: "unbounded" } : { status: "optimal", objective: best };
}

const engines: [string, ProgrammeEngine][] = [
  ["the embedded engine", embeddedEngine],
  ["HiGHS", highs],
];

test("1,000 small programmes of every kind: both engines agree with enumeration", () => {
  const met = { optimal: 0, infeasible: 0, unbounded: 0 };
  fc.assert(
    fc.property(boxed, (boxedProgramme) => {
      const expected = bruteForce(boxedProgramme);
      met[expected.status as keyof typeof met]++;
      for (const [name, engine] of engines) {
        expect({ name, ...engine(boxedProgramme.programme) }).toMatchObject({ name, ...expected });
      }
    }),
    { seed: 20261125, numRuns: 1000 },
  );
  // The generator is worth its name only if it meets each kind often.
  expect(Math.min(...Object.values(met)), JSON.stringify(met)).toBeGreaterThan(80);
});
