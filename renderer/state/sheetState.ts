import type { JobJson, PlanOutcome } from "../../shared/host.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import type { Standing } from "../../shared/standing.ts";
import type { Past } from "./history.ts";

/** Everything the sheet shows, as plain data. Reducers in this folder change it; no component holds state of the job. */
export interface SheetState {
  readonly connection: "connecting" | "standing" | "lost";
  readonly host: HostFacts | null;
  readonly document: OpenDocument | null;
  readonly history: Past;
  readonly reading: { readonly problems: readonly Problem[]; readonly warnings: readonly Problem[] };
  readonly run: RunState;
  readonly shown: ShownPlan | null;
  /** The last run's answer, other than a plan. */
  readonly outcome: Exclude<PlanOutcome, { status: "planned" }> | null;
  /** Layout the bands show; null: the chosen one. */
  readonly layoutId: string | null;
  readonly selected: string | null;
  readonly hovered: string | null;
  readonly view: ViewState;
  readonly dialog: Dialog | null;
  /** What the last action did, said once to the eye and to a screen reader. */
  readonly notice: Notice | null;
  /** Unsaved work of an earlier window, offered until it is taken up or put away. */
  readonly offered: readonly Draft[];
}

export interface HostFacts {
  readonly kind: "electron" | "loopback";
  readonly version: string;
  readonly dialogs: boolean;
  readonly folder: string | null;
}

export interface OpenDocument {
  readonly token: string;
  readonly name: string;
  readonly onDisk: boolean;
  readonly job: JobJson;
  /** As it stands on disk; the same object as `job` when nothing is edited. */
  readonly saved: JobJson;
}

export interface RunState {
  /** waiting: an edit was made and the run starts when the hand rests. */
  readonly status: "idle" | "waiting" | "working" | "stopping" | "done" | "stopped";
  readonly id: string | null;
  readonly done: number;
  readonly of: number;
  readonly what: string;
  readonly seconds: number;
  /** How the search stood from its first layout on, oldest first, thinned. */
  readonly standings: readonly Standing[];
  /** What the run is for; a plan that comes belongs to this job. */
  readonly job: JobJson | null;
}

/** A plan with the very job it was made for, so that drawings never mix an edited job with an older plan. */
export interface ShownPlan {
  readonly plan: PlanFile;
  readonly job: JobJson;
  readonly warnings: readonly Problem[];
}

export type BandId = "covered" | "compared" | "printed";
export type Theme = "system" | "light" | "dark";
export type SortKey = "layout" | "waste" | "seams" | "open" | "cost" | "film" | "panels" | "gap";

export interface ViewState {
  readonly theme: Theme;
  readonly folded: Readonly<Record<BandId, boolean>>;
  /** Pixels per unit of length: null fits the band. */
  readonly zoom: number | null;
  readonly sort: { readonly by: SortKey; readonly descending: boolean };
  /** Longest search, in seconds. */
  readonly seconds: number;
  readonly singleKeys: boolean;
}

export type Dialog =
  | { readonly kind: "open" }
  | { readonly kind: "keys" }
  | { readonly kind: "saveAs"; readonly name: string; readonly exists: string | null }
  | { readonly kind: "export" }
  | { readonly kind: "leave"; readonly then: LeaveTo };

/** Where to go once unsaved work has been dealt with. */
export type LeaveTo =
  | { readonly to: "listed"; readonly token: string }
  | { readonly to: "dialog" }
  | { readonly to: "demo" }
  | { readonly to: "file"; readonly name: string; readonly text: string }
  | { readonly to: "draft"; readonly id: string };

export interface Notice {
  readonly says: string;
  readonly tone: "plain" | "attention";
}

export interface Draft {
  readonly id: string;
  readonly name: string;
  readonly job: JobJson;
  /** Milliseconds since 1970. */
  readonly at: number;
}

export const idleRun: RunState = {
  status: "idle",
  id: null,
  done: 0,
  of: 0,
  what: "",
  seconds: 0,
  standings: [],
  job: null,
};

export const firstView: ViewState = {
  theme: "system",
  folded: { covered: false, compared: false, printed: false },
  zoom: null,
  sort: { by: "cost", descending: false },
  seconds: 8,
  singleKeys: true,
};

export const firstState: SheetState = {
  connection: "connecting",
  host: null,
  document: null,
  history: { done: [], undone: [] },
  reading: { problems: [], warnings: [] },
  run: idleRun,
  shown: null,
  outcome: null,
  layoutId: null,
  selected: null,
  hovered: null,
  view: firstView,
  dialog: null,
  notice: null,
  offered: [],
};

export const isEdited = (document: OpenDocument | null): boolean =>
  document !== null && document.job !== document.saved;
