import { PlanFile } from "./planFile.ts";
import { Problem } from "./problem.ts";
import { Standing } from "./standing.ts";
import { z } from "./zod.ts";

/**
 * What a renderer may ask of its host: one table, three hosts. `main/handlers` implements it; the Electron bridge, the
 * loopback server and the command line are derived from it. Every input is parsed with its schema before a handler sees
 * it, and every refusal comes back as a `HostRefusal`, never as silence. Paths never cross: a job on disk is a token.
 */

/** A job document travels as plain JSON: unknown keys must survive, and an unfinished job must still be kept. */
export const JobJson = z.record(z.string(), z.unknown());
export type JobJson = z.output<typeof JobJson>;

/** Names a job that the host holds, and where it keeps it; worth nothing outside this host. */
export const JobToken = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);

/** A file handed to the window to be kept by the browser, where the host has no folder of its own to write to. */
export const LooseFile = z.object({ name: z.string(), mime: z.string(), text: z.string() });
export type LooseFile = z.output<typeof LooseFile>;

export const OpenedJob = z.object({
  token: JobToken,
  /** File name without its folder, or a proposed one. */
  name: z.string(),
  /** True when the host can write it back where it came from. */
  onDisk: z.boolean(),
  job: JobJson,
  problems: z.array(Problem),
  warnings: z.array(Problem),
});
export type OpenedJob = z.output<typeof OpenedJob>;

export const ListedJob = z.object({ token: JobToken, name: z.string(), changed: z.string() });

/** How long a plan may be searched for: until a time is up, or a number of algorithm steps (repeatable). */
export const Budget = z.union([
  z.object({ seconds: z.number().positive().max(3600) }),
  z.object({ work: z.int().positive() }),
]);
export type Budget = z.output<typeof Budget>;

export const RunId = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);

export const ExportKind = z.enum(["plan", "cutList", "datumSheet", "rollMap"]);
export type ExportKind = z.output<typeof ExportKind>;

/** The answer to a run. A plan here has passed the verifier. */
export const PlanOutcome = z.discriminatedUnion("status", [
  z.object({ status: z.literal("planned"), plan: PlanFile, warnings: z.array(Problem) }),
  /** The job can be read, but no plan of it exists. */
  z.object({ status: z.literal("noPlan"), reasons: z.array(Problem) }),
  /** The job can't be read as it stands. */
  z.object({ status: z.literal("badJob"), problems: z.array(Problem), warnings: z.array(Problem) }),
  /** Stopped by the user before a first verified plan was there. */
  z.object({ status: z.literal("stopped") }),
  /** The program broke a promise of its own; `says` is for the report. */
  z.object({ status: z.literal("failed"), says: z.string() }),
]);
export type PlanOutcome = z.output<typeof PlanOutcome>;

const nothing = z.object({});

export const hostCalls = {
  /** Who serves this window, and what it can do. */
  hostInfo: {
    input: nothing,
    output: z.object({
      kind: z.enum(["electron", "loopback"]),
      version: z.string(),
      /** True when opening and saving go through the system's own dialogs. */
      dialogs: z.boolean(),
      /** Name of the folder that `saveJobAs` writes to when there are no dialogs; null when there is none. */
      folder: z.string().nullable(),
    }),
  },
  /** The job the program was started with: the demo unless a file was named. */
  openFirst: { input: nothing, output: OpenedJob },
  openDemo: { input: nothing, output: OpenedJob },
  /** Jobs in the work folder, newest first; empty when dialogs do that. */
  listJobs: { input: nothing, output: z.object({ jobs: z.array(ListedJob) }) },
  openListed: { input: z.object({ token: JobToken }), output: OpenedJob },
  /** Asks with the system's dialog; null when the user turned away. Refused where there are no dialogs. */
  openByDialog: { input: nothing, output: OpenedJob.nullable() },
  /** Takes in a file that the window read itself (a file input, a drop). Never fails on bad content: problems say it. */
  adoptJob: { input: z.object({ name: z.string().max(255), text: z.string().max(20_000_000) }), output: OpenedJob },
  /** Reads a job without planning it: every problem and warning. */
  readJob: {
    input: z.object({ job: JobJson }),
    output: z.object({ problems: z.array(Problem), warnings: z.array(Problem) }),
  },
  /** Writes back where it came from, whole or not at all. Refused when it is not on disk. */
  saveJob: { input: z.object({ token: JobToken, job: JobJson }), output: z.object({ name: z.string() }) },
  /** Writes under a new name (dialog, or work folder); null when turned away. Never replaces a file unasked. */
  saveJobAs: {
    input: z.object({ name: z.string().min(1).max(200), job: JobJson, replace: z.boolean().default(false) }),
    output: z
      .union([
        z.object({ saved: z.literal(true), token: JobToken, name: z.string() }),
        z.object({ saved: z.literal(false), exists: z.string() }),
      ])
      .nullable(),
  },
  /** Starts planning; progress and outcome come as events with this run's id. A run of the same id is ended first. */
  startPlan: {
    input: z.object({ runId: RunId, job: JobJson, seed: z.int(), budget: Budget }),
    output: z.object({ runId: RunId }),
  },
  /** Ends a run within 0.2 s. What was found and verified so far comes as its outcome. */
  stopPlan: { input: z.object({ runId: RunId }), output: z.object({ known: z.boolean() }) },
  /** The verifier alone. */
  checkPlan: {
    input: z.object({ job: JobJson, plan: PlanFile }),
    output: z.object({
      problems: z.array(Problem),
      violations: z.array(z.object({ rule: z.string(), at: z.array(z.string()), says: z.string() })),
    }),
  },
  /** Writes exports of one layout after checking the plan: into a folder the user picks, or as files for the window to keep. */
  exportPlan: {
    input: z.object({ job: JobJson, plan: PlanFile, layout: z.string(), kinds: z.array(ExportKind).min(1) }),
    output: z.union([
      z.object({ delivered: z.literal("folder"), folder: z.string(), names: z.array(z.string()) }),
      z.object({ delivered: z.literal("files"), files: z.array(LooseFile) }),
      z.object({ delivered: z.literal("turnedAway") }),
    ]),
  },
} as const;

/** What a host says unasked. */
export const hostEvents = {
  planProgress: z.object({
    runId: RunId,
    done: z.number(),
    of: z.number(),
    what: z.string(),
    seconds: z.number(),
    /** Best verified plan so far, when it is new with this event. */
    plan: PlanFile.nullable(),
    /** How the search stands, when that is new with this event; it may come before the plan that it tells of. */
    standing: Standing.nullable().default(null),
  }),
  planDone: z.object({
    runId: RunId,
    seconds: z.number(),
    outcome: PlanOutcome,
    /** How the search stood from its first layout on, oldest first, thinned; the last entry tells of the outcome's plan. */
    standings: z.array(Standing).readonly().default([]),
  }),
} as const;

type Calls = typeof hostCalls;
type Events = typeof hostEvents;
export type CallName = keyof Calls;
export type CallInput<C extends CallName> = z.input<Calls[C]["input"]>;
export type CallRequest<C extends CallName> = z.output<Calls[C]["input"]>;
export type CallOutput<C extends CallName> = z.output<Calls[C]["output"]>;
export type EventName = keyof Events;
export type EventBody<E extends EventName> = z.output<Events[E]>;

/** What the renderer holds. */
export type Host = {
  readonly [C in CallName]: (input: CallInput<C>) => Promise<CallOutput<C>>;
} & {
  /** Listens until the returned function is called. */
  readonly on: <E extends EventName>(event: E, listener: (body: EventBody<E>) => void) => () => void;
};

/** What `main/handlers` gives: every call on parsed input. */
export type Handlers = { readonly [C in CallName]: (input: CallRequest<C>) => Promise<CallOutput<C>> };

/** How a refused call travels: over HTTP as the body of a 4xx answer, over the bridge as an error's message. */
export const HostRefusal = z.object({ refused: z.string(), problems: z.array(Problem).default([]) });
export type HostRefusal = z.output<typeof HostRefusal>;
