import {
  buildInstance,
  type Instance,
  type Plan,
  type Problem,
  type Result,
  readJob,
  seededRandom,
  solve,
  verifyPlan,
} from "../../core/index.ts";

export interface PlannedJob {
  readonly instance: Instance;
  readonly result: Result;
}

const told = (problems: readonly Problem[]): string => problems.map(({ path, why }) => `${path}: ${why}`).join("\n");

/** The instance of a job that a test expects to be without fault. @throws Error listing every problem found */
export function instanceOf(data: unknown): Instance {
  const { job, problems } = readJob(data);
  if (job === null) throw new Error(`the job can't be read:\n${told(problems)}`);
  const built = buildInstance(job);
  if (!("instance" in built)) throw new Error(`the job does not hold together:\n${told(built.problems)}`);
  return built.instance;
}

/** Reads and plans a job from a seed, with a number of algorithm steps or as many as it takes. Never stopped by a clock. */
export function planJob(
  data: unknown,
  { seed = 1, work = null }: { seed?: number; work?: number | null } = {},
): PlannedJob {
  const instance = instanceOf(data);
  const run = { random: seededRandom(seed), stop: () => false, report: () => {}, work };
  return { instance, result: solve(instance, { seed }, run) };
}

/** The plan of a job that a test expects to be planned, after the verifier has passed it. @throws Error saying why not */
export function verifiedPlan(data: unknown, options: { seed?: number; work?: number | null } = {}): Plan {
  const { instance, result } = planJob(data, options);
  if (result.status !== "planned") {
    throw new Error(
      `not planned but ${result.status}${result.status === "noPlan" ? `:\n${told(result.reasons)}` : ""}`,
    );
  }
  const violations = verifyPlan(instance, result.plan);
  if (violations.length > 0) throw new Error(violations.map(({ rule, says }) => `${rule}: ${says}`).join("\n"));
  return result.plan;
}
