/**
 * The port through which linear and integer programmes are solved. An engine is a value: the embedded one stands in
 * `embeddedEngine.ts`, one that must be loaded first is handed in by the worker that loaded it.
 */
export interface Programme {
  /** Minimise the sum of cost x value. Values are never negative. */
  readonly variables: readonly ProgrammeVariable[];
  readonly rows: readonly ProgrammeRow[];
}

export interface ProgrammeVariable {
  readonly cost: number;
  /** True when only whole values count. */
  readonly whole: boolean;
}

/** least ≤ sum of coefficient x value ≤ most; null for no limit on that side. */
export interface ProgrammeRow {
  readonly terms: readonly ProgrammeTerm[];
  readonly least: number | null;
  readonly most: number | null;
}

/** Each variable at most once in a row. */
export interface ProgrammeTerm {
  readonly variable: number;
  readonly coefficient: number;
}

export type ProgrammeOutcome =
  | { readonly status: "optimal"; readonly objective: number; readonly values: readonly number[] }
  /** The engine met its limit with values that hold; `bound` is proven: none cost less. -Infinity when nothing is proven. */
  | {
      readonly status: "feasible";
      readonly objective: number;
      readonly values: readonly number[];
      readonly bound: number;
    }
  | { readonly status: "infeasible" }
  | { readonly status: "unbounded" }
  /** The engine gave up, or gave what does not hold; nothing is known. */
  | { readonly status: "unknown"; readonly why: string };

/** A limit counted in steps of the search, so that the same limit gives the same answer on any machine. */
export interface ProgrammeLimit {
  /** Most branches looked at, at least 1. */
  readonly nodes: number;
}

/** `limit` is for engines that branch and can count; the embedded one can't, and answers in full or not at all. */
export type ProgrammeEngine = (programme: Programme, limit?: ProgrammeLimit) => ProgrammeOutcome;

/** How far a value may lie from a whole one, and a row from its limit, relative to the size of its terms. */
const TOLERANCE = 1e-6;

/**
 * Whether a programme is well formed: finite numbers, variables that exist, none twice in a row.
 *
 * @returns one sentence for each fault, none when all is well
 */
export function faultsOf({ variables, rows }: Programme): string[] {
  const faults: string[] = [];
  for (const [i, { cost }] of variables.entries()) {
    if (!Number.isFinite(cost)) faults.push(`variable ${i} costs ${cost}`);
  }
  for (const [i, { terms, least, most }] of rows.entries()) {
    for (const limit of [least, most]) {
      if (limit !== null && !Number.isFinite(limit)) faults.push(`row ${i} has the limit ${limit}`);
    }
    const seen = new Set<number>();
    for (const { variable, coefficient } of terms) {
      if (!Number.isFinite(coefficient)) faults.push(`row ${i} has the coefficient ${coefficient}`);
      if (!(variable in variables)) faults.push(`row ${i} names variable ${variable} of ${variables.length}`);
      if (seen.has(variable)) faults.push(`row ${i} names variable ${variable} twice`);
      seen.add(variable);
    }
  }
  return faults;
}

/**
 * Holds values against a programme, whatever an engine says of them.
 *
 * @returns the objective worked out anew from whole values made exactly whole, or the first thing that does not hold
 */
export function checkValues(
  { variables, rows }: Programme,
  values: readonly number[],
): { objective: number; values: number[] } | { broken: string } {
  if (values.length !== variables.length)
    return { broken: `${values.length} values for ${variables.length} variables` };
  // Minus nought becomes nought by adding one.
  const exact = values.map((value, i) => (variables[i]?.whole ? Math.round(value) : value) + 0);
  for (const [i, value] of values.entries()) {
    if (!(value >= -TOLERANCE)) return { broken: `variable ${i} is ${value}` };
    if (Math.abs(value - (exact[i] as number)) > TOLERANCE) return { broken: `variable ${i} is ${value}, not whole` };
  }
  for (const [i, { terms, least, most }] of rows.entries()) {
    const parts = terms.map(({ variable, coefficient }) => coefficient * (exact[variable] as number));
    const total = parts.reduce((sum, part) => sum + part, 0);
    const room = TOLERANCE * parts.reduce((size, part) => Math.max(size, Math.abs(part)), 1);
    if (least !== null && total < least - room) return { broken: `row ${i} comes to ${total}, below ${least}` };
    if (most !== null && total > most + room) return { broken: `row ${i} comes to ${total}, above ${most}` };
  }
  return { objective: variables.reduce((sum, { cost }, i) => sum + cost * (exact[i] as number), 0), values: exact };
}
