import { readPlan, verifyPlan } from "../../core/index.ts";
import type { Problem } from "../../shared/problem.ts";
import { violationProblem } from "../handlers/planHandlers.ts";
import { type CommandForm, readCommandLine } from "./commandLine.ts";
import { jobAtDoor, textAtDoor } from "./jobAtDoor.ts";
import { status, type Terminal, tellProblems } from "./reporting.ts";

const form: CommandForm = {
  usage: "Usage: npm run -s check -- JOB.json PLAN.json [--json]",
  operands: ["JOB.json", "PLAN.json"],
  options: {},
  flags: ["--json", "--help"],
};

/** A plan file's content as data, or the problem of reading it. */
async function planData(path: string): Promise<{ data: unknown } | { problem: Problem }> {
  const read = await textAtDoor(path);
  if ("problem" in read) return read;
  try {
    return { data: JSON.parse(read.text.replace(/^\uFEFF/, "")) };
  } catch (cause) {
    const why = `The plan file is not JSON: ${(cause as SyntaxError).message}`;
    return { problem: { path, value: read.text.slice(0, 40), why, mend: "Name a plan file" } };
  }
}

/**
 * The `check` command: holds a plan against its job with the verifier alone.
 *
 * @returns the exit status: a plan that breaks a rule counts as bad input
 */
export async function checkCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const line = readCommandLine(form, args);
  const json = line.flags.has("--json");
  if (line.flags.has("--help")) {
    terminal.out(`${form.usage}\n`);
    return status.done;
  }
  const refuse = (problems: readonly Problem[]): number => {
    tellProblems(terminal, problems, json);
    return status.badInput;
  };
  if (line.problems.length > 0) {
    const answer = refuse(line.problems);
    if (!json) terminal.err(`${form.usage}\n`);
    return answer;
  }
  const [jobPath, planPath] = line.operands as [string, string];
  const job = await jobAtDoor(jobPath);
  const read = await planData(planPath);
  if (job.instance === null || "problem" in read) {
    return refuse([...(job.instance === null ? job.problems : []), ...("problem" in read ? [read.problem] : [])]);
  }
  if (job.warnings.length > 0) tellProblems(terminal, job.warnings, json, "warning: ");
  const { plan, problems } = readPlan(read.data);
  if (plan === null) return refuse(problems);
  const violations = verifyPlan(job.instance, plan);
  if (violations.length > 0 && json) return refuse(violations.map(violationProblem));
  for (const { rule, at, says } of violations) terminal.err(`${rule}: ${at.join(", ")}: ${says}\n`);
  if (json) terminal.out("[]\n");
  else terminal.out(`${violations.length} violation${violations.length === 1 ? "" : "s"}\n`);
  return violations.length === 0 ? status.done : status.badInput;
}
