import { basename, join, resolve } from "node:path";
import { type Instance, type Plan, planFromFile, planText, verifyPlan } from "../../core/index.ts";
import { type Budget, ExportKind, type PlanOutcome } from "../../shared/host.ts";
import { FileFault } from "../files/fileFault.ts";
import { writeWhole } from "../files/wholeFile.ts";
import { exportFiles } from "../handlers/exportFiles.ts";
import { violationProblem } from "../handlers/planHandlers.ts";
import type { Planner } from "../workers/planRunner.ts";
import {
  type CommandForm,
  type CommandLine,
  positiveNumber,
  readCommandLine,
  someText,
  wholeNumber,
} from "./commandLine.ts";
import { comparison } from "./comparison.ts";
import { cutLengthTable } from "./cutLengthTable.ts";
import { jobAtDoor } from "./jobAtDoor.ts";
import { planProgress } from "./planProgress.ts";
import { status, type Terminal, tellProblems } from "./reporting.ts";

const form: CommandForm = {
  usage: "Usage: npm run -s plan -- JOB.json [--out DIR] [--seconds S | --work N] [--seed N] [--threads N] [--json]",
  operands: ["JOB.json"],
  options: {
    "--out": someText,
    "--seconds": positiveNumber(3600),
    "--work": wholeNumber(1, Number.MAX_SAFE_INTEGER),
    "--seed": wholeNumber(-2_147_483_648, 2_147_483_647),
    "--threads": wholeNumber(1, 64),
  },
  flags: ["--json", "--help"],
};

/** Long enough for the demo and jobs of its size, short enough to wait for. */
const usualSeconds = 20;

/** What `--help` says besides. */
const notes = `--seconds S    searches for at most S seconds; ${usualSeconds} unless told otherwise
--work N       searches for N steps; the same seed and N give the same bytes on any machine
--threads N    taken and without effect: the search is one thread, so any N gives the same plan`;

function budgetOf({ options }: CommandLine): Budget {
  const work = options.get("--work");
  return typeof work === "number"
    ? { work }
    : { seconds: (options.get("--seconds") as number | undefined) ?? usualSeconds };
}

/** What a person reads: all layouts, and the cut lengths of the chosen one. */
function printedPlan(instance: Instance, plan: Plan): string {
  const chosen = plan.layouts.find(({ id }) => id === plan.chosen);
  if (chosen === undefined) throw new Error(`The plan's chosen layout ${plan.chosen} is not among its layouts`);
  const title = `${plan.jobName || "Job without a name"}: ${plan.layouts.length} layout${plan.layouts.length === 1 ? "" : "s"}`;
  const warnings = chosen.warnings.map((warning) => `Note: ${warning}\n`).join("");
  return [
    `${title}\n`,
    comparison(instance, plan),
    `\nCut lengths of ${chosen.id}\n`,
    cutLengthTable(chosen, plan.unit),
    ...(warnings === "" ? [] : [`\n${warnings}`]),
  ].join("");
}

/** Tells what came of a run that gave no plan; the exit status. */
function tellNoPlan(terminal: Terminal, outcome: Exclude<PlanOutcome, { status: "planned" }>, json: boolean): number {
  if (outcome.status === "noPlan") {
    tellProblems(terminal, outcome.reasons, json);
    return status.noPlan;
  }
  if (outcome.status === "badJob") {
    tellProblems(terminal, outcome.problems, json);
    return status.badInput;
  }
  const [why, mend] =
    outcome.status === "stopped"
      ? ["The search ended before a first plan was there; that does not mean that none exists", "Allow more work"]
      : [`The program broke a promise of its own: ${outcome.says}`, "Report it with the job file"];
  tellProblems(terminal, [{ path: "plan", value: outcome.status, why, mend }], json);
  return status.fault;
}

/**
 * The `plan` command: reads a job, plans it, verifies the plan once more and prints or writes it.
 *
 * @param aborted ends the search when it fires; the command then answers 130 and prints nothing
 * @returns the exit status
 */
export async function planCommand(
  args: readonly string[],
  terminal: Terminal,
  planner: Planner,
  aborted?: AbortSignal,
): Promise<number> {
  const line = readCommandLine(form, args);
  const json = line.flags.has("--json");
  if (line.flags.has("--help")) {
    terminal.out(`${form.usage}\n${notes}\n`);
    return status.done;
  }
  if (line.options.has("--seconds") && line.options.has("--work")) {
    const mend = "Give one of them";
    line.problems.push({ path: "--work", value: line.options.get("--work"), why: "--seconds is given too", mend });
  }
  if (line.problems.length > 0) {
    tellProblems(terminal, line.problems, json);
    if (!json) terminal.err(`${form.usage}\n`);
    return status.badInput;
  }
  const path = line.operands[0] as string;
  const job = await jobAtDoor(path);
  if (job.instance === null) {
    tellProblems(terminal, job.problems, json);
    return status.badInput;
  }
  if (job.warnings.length > 0) tellProblems(terminal, job.warnings, json, "warning: ");

  const seed = (line.options.get("--seed") as number | undefined) ?? 1;
  const progress = planProgress(terminal, job.instance.rules.currency);
  const run = planner.start({ job: job.document, seed, budget: budgetOf(line) }, progress.show);
  aborted?.addEventListener("abort", run.stop);
  const { outcome } = await run.ended;
  progress.clear();
  if (aborted?.aborted) return 130;
  if (outcome.status !== "planned") return tellNoPlan(terminal, outcome, json);

  const plan = planFromFile(outcome.plan);
  const violations = verifyPlan(job.instance, plan);
  if (violations.length > 0) {
    tellProblems(terminal, violations.map(violationProblem), json);
    return status.fault;
  }
  const folder = line.options.get("--out") as string | undefined;
  const written: string[] = [];
  if (folder !== undefined) {
    const files = exportFiles(job.instance, plan, plan.chosen, ExportKind.options, basename(path));
    try {
      for (const { name, text } of files) {
        await writeWhole(join(resolve(folder), name), text);
        written.push(join(folder, name));
      }
    } catch (cause) {
      if (!(cause instanceof FileFault)) throw cause;
      const mend = "Name a folder that can be written to";
      tellProblems(terminal, [{ path: "--out", value: folder, why: cause.message, mend }], json);
      return status.badInput;
    }
  }
  if (json) terminal.out(planText(plan));
  else terminal.out(printedPlan(job.instance, plan) + written.map((name) => `Wrote ${name}\n`).join(""));
  return status.done;
}
