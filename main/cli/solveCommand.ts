import { type CuttingPlan, cuttingFaults, solveCuttingStock } from "../../core/index.ts";
import type { Problem } from "../../shared/problem.ts";
import { type CommandForm, positiveNumber, readCommandLine, someText, wholeNumber } from "./commandLine.ts";
import { type CuttingInstance, type CuttingKind, cuttingInstance, cuttingKinds } from "./cuttingInstance.ts";
import { instanceAtDoor, type NamedInstance } from "./instanceAtDoor.ts";
import { status, type Terminal, tellProblems } from "./reporting.ts";

const form: CommandForm = {
  usage: "Usage: npm run -s solve -- FILE [--name NAME] [--seconds S | --work N] [--seed N] [--threads N]",
  operands: ["FILE"],
  options: {
    "--name": someText,
    "--seconds": positiveNumber(3600),
    "--work": wholeNumber(1, Number.MAX_SAFE_INTEGER),
    "--seed": wholeNumber(-2_147_483_648, 2_147_483_647),
    "--threads": wholeNumber(1, 64),
  },
  flags: ["--json", "--help"],
};

const usualSeconds = 10;

/** Milliseconds since some fixed moment. */
export type Clock = () => number;

/**
 * The `solve` command: one published instance, solved with the engines that plan jobs, as one JSON object.
 *
 * Cutting stock takes no chance and one thread, so `--seed` and `--threads` change nothing in it. A step of `--work` is
 * one round of column generation or one rounding. With `--work` the answer's `seconds` is null: the same bytes each time.
 *
 * @returns the exit status
 */
export async function solveCommand(args: readonly string[], terminal: Terminal, clock: Clock): Promise<number> {
  const line = readCommandLine(form, args);
  const json = line.flags.has("--json");
  if (line.flags.has("--help")) {
    terminal.out(`${form.usage}\n`);
    return status.done;
  }
  const refuse = (problems: readonly Problem[], exitStatus: number = status.badInput): number => {
    tellProblems(terminal, problems, json);
    return exitStatus;
  };
  if (line.options.has("--seconds") && line.options.has("--work")) {
    const mend = "Give one of them";
    line.problems.push({ path: "--work", value: line.options.get("--work"), why: "--seconds is given too", mend });
  }
  if (line.problems.length > 0) {
    const answer = refuse(line.problems);
    if (!json) terminal.err(`${form.usage}\n`);
    return answer;
  }
  const found = await instanceAtDoor(line.operands[0] as string, (line.options.get("--name") as string) ?? null);
  if ("problems" in found) return refuse(found.problems);
  const named = found.instance;
  const kind = cuttingKinds.find((known) => known === named.kind);
  if (kind === undefined) {
    const why = "There is no engine for this kind yet";
    return refuse([
      { path: `${named.path}.kind`, value: named.kind, why, mend: `Solved are ${cuttingKinds.join(", ")}` },
    ]);
  }
  const read = cuttingInstance(kind, named);
  if ("problems" in read) return refuse(read.problems);
  const misfits = tooLong(named, read.instance);
  if (misfits.length > 0) return refuse(misfits, status.noPlan);

  const start = clock();
  const work = line.options.get("--work") as number | undefined;
  const seconds = (line.options.get("--seconds") as number | undefined) ?? usualSeconds;
  let steps = 0;
  const stop = work === undefined ? () => clock() - start >= seconds * 1000 : () => ++steps > work;
  const plan = solveCuttingStock(read.instance.problem, stop);
  const taken = work === undefined ? (clock() - start) / 1000 : null;
  const faults = cuttingFaults(read.instance.problem, plan);
  if (faults.length > 0) throw new Error(`the plan of ${named.name} does not hold: ${faults.join("; ")}`);
  terminal.out(`${JSON.stringify(answerOf(kind, named.name, plan, read.instance.costScale, taken))}\n`);
  return status.done;
}

/** Items that no stock length takes: then no plan exists. */
function tooLong({ path, fields }: NamedInstance, { problem }: CuttingInstance): Problem[] {
  const longest = Math.max(...problem.stocks.map(({ length }) => length));
  return problem.items.flatMap(({ length, count }, i) => {
    if (length <= longest || count === 0) return [];
    const value = (fields.items as unknown[])[i];
    const why = "This item is longer than every stock length, so that no plan exists";
    return [{ path: `${path}.items[${i}]`, value, why, mend: "Give a longer stock length or a shorter item" }];
  });
}

function answerOf(kind: CuttingKind, name: string, plan: CuttingPlan, costScale: number, seconds: number | null) {
  const { cost, bound, patterns } = plan;
  return {
    name,
    kind,
    objective: cost / costScale,
    lowerBound: bound / costScale,
    provenOptimal: bound >= cost,
    seconds,
    patterns: patterns.map(({ stock, times, counts }) =>
      kind === "cutting-stock-1d" ? { times, counts } : { stock, times, counts },
    ),
  };
}
