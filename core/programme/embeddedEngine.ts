import solver, { type Model, type SolveResult } from "javascript-lp-solver";
import { checkValues, faultsOf, type Programme, type ProgrammeOutcome } from "./programme.ts";

/** Beyond this the package's dense tableau no longer answers in useful time. */
const MOST_VARIABLES = 5_000;

/**
 * Solves a programme with `javascript-lp-solver`: good for up to about 5,000 columns of nearly integral structure, or
 * about 50 that really branch.
 *
 * The package is used within narrow limits, since outside them it answers wrongly without a sign: its presolve is off;
 * every variable is at least 0; names carry a prefix, so that none is taken for a word of the package; what comes back is
 * held against the programme again, and the objective is worked out anew. It is given no time limit, because it reports a
 * run out of time like a solved one: whoever can't wait ends the worker it runs in.
 *
 * @throws RangeError when the programme is malformed or has more than 5,000 variables
 */
export function embeddedEngine(programme: Programme): ProgrammeOutcome {
  const faults = faultsOf(programme);
  if (faults.length > 0) throw new RangeError(`malformed programme: ${faults.slice(0, 5).join("; ")}`);
  const { variables } = programme;
  if (variables.length > MOST_VARIABLES) {
    throw new RangeError(`${variables.length} variables, at most ${MOST_VARIABLES} for this engine`);
  }
  if (variables.length === 0) return withoutVariables(programme);
  const outcome = solved(programme);
  if (outcome.status !== "unbounded" || !variables.some(({ whole }) => whole)) return outcome;
  // Without end is what the package says of the programme relaxed. Rational ones that fall without end when relaxed do so
  // among whole values too, if there are any (Meyer 1974, Mathematical Programming 7, 223-235): so ask for any.
  const any = solved({ ...programme, variables: variables.map(({ whole }) => ({ cost: 0, whole })) });
  return any.status === "optimal" ? outcome : any;
}

const solved = (programme: Programme): ProgrammeOutcome =>
  read(programme, solver.Solve(modelOf(programme)) as SolveResult & Record<string, unknown>);

function withoutVariables(programme: Programme): ProgrammeOutcome {
  const checked = checkValues(programme, []);
  return "broken" in checked ? { status: "infeasible" } : { status: "optimal", ...checked };
}

function modelOf({ variables, rows }: Programme): Model {
  const columns: Record<string, Record<string, number>> = {};
  const ints: Record<string, 1> = {};
  for (const [i, { cost, whole }] of variables.entries()) {
    columns[`v${i}`] = { cost };
    if (whole) ints[`v${i}`] = 1;
  }
  const constraints: Record<string, { min?: number; max?: number; equal?: number }> = {};
  for (const [i, { terms, least, most }] of rows.entries()) {
    if (least === null && most === null) continue;
    constraints[`r${i}`] =
      least === most
        ? { equal: least as number }
        : { ...(least === null ? {} : { min: least }), ...(most === null ? {} : { max: most }) };
    for (const { variable, coefficient } of terms) {
      if (coefficient !== 0) (columns[`v${variable}`] as Record<string, number>)[`r${i}`] = coefficient;
    }
  }
  return {
    optimize: "cost",
    opType: "min",
    constraints,
    variables: columns,
    ints,
    options: { presolve: false },
  } as Model;
}

function read(programme: Programme, answer: SolveResult & Record<string, unknown>): ProgrammeOutcome {
  if (!answer.feasible) return { status: "infeasible" };
  if (answer.bounded === false) return { status: "unbounded" };
  const whole = programme.variables.some((variable) => variable.whole);
  if (whole && answer.isIntegral !== true)
    return { status: "unknown", why: "ended before a whole solution was proved" };
  const values = programme.variables.map((_, i) => Number(answer[`v${i}`] ?? 0));
  const checked = checkValues(programme, values);
  return "broken" in checked
    ? { status: "unknown", why: `the engine's answer does not hold: ${checked.broken}` }
    : { status: "optimal", ...checked };
}
