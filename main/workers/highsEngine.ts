import type { Highs, Model, ModelData } from "highs";
import {
  checkValues,
  faultsOf,
  type Programme,
  type ProgrammeEngine,
  type ProgrammeLimit,
  type ProgrammeOutcome,
} from "../../core/index.ts";

/** Values nearer than this to a whole number are whole; `checkValues` then holds the rounded ones against every row. */
const NEARLY_WHOLE = 1e-6;

/**
 * The HiGHS solver as an engine behind the port of `core/programme/`.
 *
 * A programme with whole variables is solved without that condition first: what comes out is often whole, as in all
 * programmes of flow form. Only then does the engine branch, without its presolve, which takes minutes on that form, and
 * to the very optimum, not to within its usual hundredth of a percent. Whatever it answers is held against the programme
 * again, and the objective is worked out anew.
 *
 * @param highs the loaded solver; each call makes a model of its own and frees it
 * @param seconds most time for one call; leave it out where the same input must give the same answer on any machine, and
 * give a limit in nodes instead
 * @returns an engine; it throws RangeError when a programme is malformed
 */
export function highsEngine(highs: Highs, seconds?: number): ProgrammeEngine {
  return (programme, limit) => {
    const faults = faultsOf(programme);
    if (faults.length > 0) throw new RangeError(`malformed programme: ${faults.slice(0, 5).join("; ")}`);
    // The solver calls a model without variables empty and does not look at its rows.
    if (programme.variables.length === 0) return settled(programme, []);
    const asked: Asked = { highs, programme, data: dataOf(highs, programme), seconds, limit };
    if (!programme.variables.some(({ whole }) => whole)) return answered(asked, false);
    const relaxed = answered(asked, false, true);
    if (relaxed.status === "infeasible") return relaxed;
    if (relaxed.status === "optimal" && areWhole(programme, relaxed.values)) {
      const outcome = settled(programme, relaxed.values);
      if (outcome.status === "optimal") return outcome;
    }
    if (relaxed.status !== "unbounded") return answered(asked, true);
    // Rational programmes that fall without end when relaxed do so among whole values too, if there are any (Meyer 1974,
    // Mathematical Programming 7, 223-235); so all that is left to ask is whether there are.
    const any = answered({ ...asked, data: { ...asked.data, colCost: asked.data.colCost.map(() => 0) } }, true);
    return any.status === "optimal" || any.status === "feasible" ? { status: "unbounded" } : any;
  };
}

interface Asked {
  readonly highs: Highs;
  readonly programme: Programme;
  readonly data: PlainData;
  readonly seconds: number | undefined;
  readonly limit: ProgrammeLimit | undefined;
}

type PlainData = ModelData & { readonly colCost: Float64Array; readonly integrality: Int32Array };

function dataOf(highs: Highs, { variables, rows }: Programme): PlainData {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const { terms } of rows) {
    for (const { variable, coefficient } of terms) {
      if (coefficient === 0) continue;
      indices.push(variable);
      values.push(coefficient);
    }
    starts.push(indices.length);
  }
  const { integer, continuous } = highs.constants.variableType;
  return {
    numCols: variables.length,
    numRows: rows.length,
    colCost: Float64Array.from(variables, ({ cost }) => cost),
    colLower: new Float64Array(variables.length),
    colUpper: new Float64Array(variables.length).fill(highs.infinity),
    rowLower: Float64Array.from(rows, ({ least }) => least ?? -highs.infinity),
    rowUpper: Float64Array.from(rows, ({ most }) => most ?? highs.infinity),
    matrix: {
      format: "csr",
      numRows: rows.length,
      numCols: variables.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    integrality: Int32Array.from(variables, ({ whole }) => (whole ? integer : continuous)),
  };
}

/** One run of the solver. `relaxed`: what comes back need not be whole. */
function answered(asked: Asked, whole: boolean, relaxed = false): ProgrammeOutcome {
  try {
    return run(asked, whole, relaxed);
  } catch (cause) {
    // It takes no model with numbers beyond its range; that is no fault of the programme, and nothing is known of it.
    if (cause instanceof asked.highs.errors.HighsError) return { status: "unknown", why: `refused: ${cause.message}` };
    throw cause;
  }
}

function run(asked: Asked, whole: boolean, relaxed: boolean): ProgrammeOutcome {
  const { highs, data, seconds, limit } = asked;
  const { integrality, ...continuous } = data;
  return highs.withModel(whole ? data : continuous, (model) => {
    model.options.set({
      output_flag: false,
      presolve: "off",
      mip_detect_symmetry: false,
      mip_rel_gap: 0,
      ...(seconds === undefined ? {} : { time_limit: seconds }),
      ...(limit === undefined ? {} : { mip_max_nodes: limit.nodes }),
    });
    model.run();
    return read(asked, model, whole, relaxed);
  });
}

function read({ highs, programme }: Asked, model: Model, whole: boolean, relaxed: boolean): ProgrammeOutcome {
  const { modelStatus } = highs.constants;
  const status = model.getModelStatus();
  const held = relaxed
    ? { ...programme, variables: programme.variables.map(({ cost }) => ({ cost, whole: false })) }
    : programme;
  if (status === modelStatus.optimal) return settled(held, [...model.getSolution().colValue]);
  if (status === modelStatus.infeasible) return { status: "infeasible" };
  if (status === modelStatus.unbounded) return { status: "unbounded" };
  const ended = `ended with status ${nameOf(highs, status)}`;
  if (!whole || model.info.get("primal_solution_status") !== highs.constants.solutionStatus.feasible) {
    return { status: "unknown", why: ended };
  }
  const checked = settled(held, [...model.getSolution().colValue]);
  if (checked.status !== "optimal") return checked;
  return {
    ...checked,
    status: "feasible",
    bound: Math.min(Number(model.info.get("mip_dual_bound")), checked.objective),
  };
}

/** Values that the solver calls optimal, held against the programme. */
function settled(programme: Programme, values: readonly number[]): ProgrammeOutcome {
  const checked = checkValues(programme, values);
  if (!("broken" in checked)) return { status: "optimal", ...checked };
  if (values.length === 0) return { status: "infeasible" };
  return { status: "unknown", why: `the engine's answer does not hold: ${checked.broken}` };
}

const areWhole = ({ variables }: Programme, values: readonly number[]): boolean =>
  values.every((value, i) => !variables[i]?.whole || Math.abs(value - Math.round(value)) <= NEARLY_WHOLE);

function nameOf({ constants }: Highs, status: number): string {
  const known = Object.entries(constants.modelStatus).find(([, code]) => code === status);
  return known?.[0] ?? String(status);
}
