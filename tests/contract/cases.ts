import type { Budget, CallName, JobJson, PlanOutcome } from "../../shared/host.ts";
import { brokenJob, clinicWall, emptyJob, letteredWall } from "./jobs.ts";

/** What the steps of a case may look back on: the answers so far, oldest first. */
type Answers = readonly Readonly<Record<string, unknown>>[];

/** One call with what must come of it: an answer that holds at least `gives`, or a refusal whose words fit. */
export interface Step {
  readonly call: CallName;
  readonly input: unknown | ((answers: Answers) => unknown);
  readonly gives?: unknown;
  readonly refused?: RegExp;
}

export interface CallCase {
  readonly name: string;
  readonly steps: readonly Step[];
}

/** One planning run with its outcome, and the exit status of the command that does the same. */
export interface RunCase {
  readonly name: string;
  readonly job: JobJson;
  readonly budget: Budget;
  readonly outcome: PlanOutcome["status"];
  /** Words that the outcome must hold somewhere. */
  readonly says: RegExp;
  readonly exitStatus: number;
}

const tokenOf = (answers: Answers): unknown => answers.at(-1)?.token;
const textOf = (job: JobJson): string => JSON.stringify(job);

/** Calls that every host with a window answers alike. */
export const callCases: readonly CallCase[] = [
  {
    name: "the first job is the demo, which has no place on disk",
    steps: [{ call: "openFirst", input: {}, gives: { name: "demo.job.json", onDisk: false, problems: [] } }],
  },
  {
    name: "the demo opens again, and can't be written back",
    steps: [
      { call: "openDemo", input: {}, gives: { onDisk: false } },
      {
        call: "saveJob",
        input: (answers: Answers) => ({ token: tokenOf(answers), job: clinicWall }),
        refused: /not on disk yet/,
      },
    ],
  },
  {
    name: "a job that the window read itself is taken in, unknown keys and all",
    steps: [
      {
        call: "adoptJob",
        input: { name: "../wall.json", text: textOf({ ...clinicWall, keepclear: 1 }) },
        gives: { name: "wall.job.json", onDisk: false, job: { keepclear: 1, name: "Clinic wall" }, problems: [] },
      },
    ],
  },
  {
    name: "text that is no job is taken in with its problems",
    steps: [
      {
        call: "adoptJob",
        input: { name: "notes.txt", text: "not a job" },
        gives: { onDisk: false, job: {}, problems: [{ path: "job" }] },
      },
    ],
  },
  {
    name: "reading a job finds every problem",
    steps: [
      { call: "readJob", input: { job: clinicWall }, gives: { problems: [] } },
      {
        call: "readJob",
        input: { job: brokenJob },
        gives: { problems: [{ path: "units" }, { path: "films[0].rollWidths" }] },
      },
      { call: "readJob", input: { job: emptyJob }, gives: { problems: [] } },
    ],
  },
  {
    name: "a job is saved under a name, written back and opened as it was",
    steps: [
      {
        call: "saveJobAs",
        input: { name: "clinic", job: { ...clinicWall, note: "kept" } },
        gives: { saved: true, name: "clinic.job.json" },
      },
      {
        call: "saveJob",
        input: (answers: Answers) => ({ token: tokenOf(answers), job: { ...clinicWall, note: "changed" } }),
        gives: { name: "clinic.job.json" },
      },
      {
        call: "openListed",
        input: (answers: Answers) => ({ token: answers[0]?.token }),
        gives: { onDisk: true, name: "clinic.job.json", job: { note: "changed" } },
      },
    ],
  },
  {
    name: "an unknown job is refused",
    steps: [
      { call: "openListed", input: { token: "abcdefghijkl" }, refused: /not known here/ },
      { call: "saveJob", input: { token: "abcdefghijkl", job: clinicWall }, refused: /not known here/ },
    ],
  },
  {
    name: "a path is no token",
    steps: [{ call: "openListed", input: { token: "/etc/passwd" }, refused: /not as agreed/ }],
  },
  {
    name: "input that breaks the contract is refused, whatever it is",
    steps: [
      { call: "readJob", input: null, refused: /not as agreed/ },
      { call: "readJob", input: { job: "text" }, refused: /not as agreed/ },
      { call: "saveJobAs", input: { name: "", job: clinicWall }, refused: /not as agreed/ },
      { call: "adoptJob", input: { name: "wall", text: 5 }, refused: /not as agreed/ },
      {
        call: "startPlan",
        input: { runId: "../x", job: clinicWall, seed: 1, budget: { seconds: 1 } },
        refused: /not as agreed/,
      },
      {
        call: "startPlan",
        input: { runId: "x", job: clinicWall, seed: 1, budget: { seconds: -1 } },
        refused: /not as agreed/,
      },
      {
        call: "exportPlan",
        input: { job: clinicWall, plan: {}, layout: "x", kinds: ["plan"] },
        refused: /not as agreed/,
      },
    ],
  },
  {
    name: "a run that is not there can't be stopped",
    steps: [{ call: "stopPlan", input: { runId: "never" }, gives: { known: false } }],
  },
];

/** Planning runs. Budgets are in steps, so that no clock decides. */
export const runCases: readonly RunCase[] = [
  { name: "a plan", job: clinicWall, budget: { work: 2 }, outcome: "planned", says: /wall\/all\/2/, exitStatus: 0 },
  {
    name: "no plan exists",
    job: letteredWall,
    budget: { work: 2 },
    outcome: "noPlan",
    says: /WAITING ROOM/,
    exitStatus: 3,
  },
  {
    name: "nothing to make",
    job: emptyJob,
    budget: { work: 2 },
    outcome: "noPlan",
    says: /nothing to make/i,
    exitStatus: 3,
  },
  {
    name: "a job that can't be read",
    job: brokenJob,
    budget: { work: 2 },
    outcome: "badJob",
    says: /units/,
    exitStatus: 2,
  },
];
