import type { Problem } from "../../shared/problem.ts";
import { type CommandForm, positiveNumber, readCommandLine, someText, wholeNumber } from "./commandLine.ts";
import { instanceAtDoor } from "./instanceAtDoor.ts";
import { cuttingKind } from "./kinds/cuttingKind.ts";
import type { PublishedKind } from "./kinds/publishedKind.ts";
import { sheetCuttingKind } from "./kinds/sheetCuttingKind.ts";
import { sheetKnapsackKind } from "./kinds/sheetKnapsackKind.ts";
import { stripKind } from "./kinds/stripKind.ts";
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

/** Every kind that the command answers: one file each in kinds/. */
const publishedKinds: readonly PublishedKind[] = [stripKind, cuttingKind, sheetKnapsackKind, sheetCuttingKind];

const usualSeconds = 10;

/** Milliseconds since some fixed moment. */
export type Clock = () => number;

/**
 * The `solve` command: one published instance, solved with the engines that plan jobs, as one JSON object.
 *
 * What a step of `--work` is, and whether `--seed` and `--threads` change anything, each kind says for itself. With
 * `--work` the answer's `seconds` is null: the same bytes each time.
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
  const kind = publishedKinds.find(({ kinds }) => kinds.includes(named.kind));
  if (kind === undefined) {
    const why = "There is no engine for this kind yet";
    const mend = `Solved are ${publishedKinds.flatMap(({ kinds }) => kinds).join(", ")}`;
    return refuse([{ path: `${named.path}.kind`, value: named.kind, why, mend }]);
  }
  const read = kind.read(named);
  if ("problems" in read) return refuse(read.problems, read.noPlan ? status.noPlan : status.badInput);

  const start = clock();
  const work = line.options.get("--work") as number | undefined;
  const seconds = (line.options.get("--seconds") as number | undefined) ?? usualSeconds;
  let steps = 0;
  const stop = work === undefined ? () => clock() - start >= seconds * 1000 : () => ++steps > work;
  const seed = (line.options.get("--seed") as number | undefined) ?? null;
  const threads = (line.options.get("--threads") as number | undefined) ?? null;
  const { objective, lowerBound, provenOptimal, found: answer } = await read.solve({ stop, seed, threads });
  const taken = work === undefined ? (clock() - start) / 1000 : null;
  const common = { name: named.name, kind: named.kind, objective, lowerBound, provenOptimal, seconds: taken };
  terminal.out(`${JSON.stringify({ ...common, ...answer })}\n`);
  return status.done;
}
