import type { EventBody, JobJson, OpenedJob, PlanOutcome } from "../../shared/host.ts";
import type { PlanFile, PlanLayout } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import { withStanding } from "../../shared/standing.ts";
import { edit, redo, undo } from "./history.ts";
import { seamName } from "./links.ts";
import { sameJson } from "./same.ts";
import {
  type Draft,
  type HostFacts,
  idleRun,
  type OpenDocument,
  type RunState,
  type SheetState,
  type ShownPlan,
  type ViewState,
} from "./sheetState.ts";

/** Each reducer takes the sheet as it is and gives the sheet as it becomes; none touches a host, a clock or the page. */

export function connectionChanged(state: SheetState, connection: SheetState["connection"]): SheetState {
  return state.connection === connection ? state : { ...state, connection };
}

export function hostKnown(state: SheetState, host: HostFacts): SheetState {
  return { ...state, host };
}

/** Another job takes the sheet; what belonged to the old one goes. */
export function jobOpened(state: SheetState, opened: OpenedJob): SheetState {
  const { token, name, onDisk, job, problems, warnings } = opened;
  return {
    ...state,
    document: { token, name, onDisk, job, saved: job },
    history: { done: [], undone: [] },
    reading: { problems, warnings },
    run: idleRun,
    shown: null,
    outcome: problems.length === 0 ? null : { status: "badJob", problems, warnings },
    layoutId: null,
    selected: null,
    hovered: null,
    dialog: null,
  };
}

/** Unsaved work is taken up again: as opened, but with its edits still unsaved. */
export function draftTakenUp(state: SheetState, opened: OpenedJob, draft: Draft): SheetState {
  const next = jobOpened(state, opened);
  const document = next.document as OpenDocument;
  return {
    ...next,
    document: { ...document, name: draft.name, onDisk: false, saved: {} },
    offered: state.offered.filter(({ id }) => id !== draft.id),
  };
}

export function draftPutAway(state: SheetState, id: string): SheetState {
  return { ...state, offered: state.offered.filter((draft) => draft.id !== id) };
}

export function draftsOffered(state: SheetState, offered: readonly Draft[]): SheetState {
  return { ...state, offered };
}

/** A job equal to the saved one is the saved one: undoing everything clears the edited mark. */
function withJob(document: OpenDocument, job: JobJson): OpenDocument {
  return { ...document, job: sameJson(job, document.saved) ? document.saved : job };
}

export function jobEdited(state: SheetState, label: string, recipe: (draft: JobJson) => void): SheetState {
  if (state.document === null) return state;
  const { job, past } = edit(state.document.job, state.history, label, recipe);
  if (job === state.document.job) return state;
  return { ...state, document: withJob(state.document, job), history: past, notice: null };
}

export function editUndone(state: SheetState): SheetState {
  const back = state.document === null ? null : undo(state.document.job, state.history);
  if (back === null || state.document === null) return state;
  return {
    ...state,
    document: withJob(state.document, back.job),
    history: back.past,
    notice: { says: `Undone: ${back.label}`, tone: "plain" },
  };
}

export function editRedone(state: SheetState): SheetState {
  const again = state.document === null ? null : redo(state.document.job, state.history);
  if (again === null || state.document === null) return state;
  return {
    ...state,
    document: withJob(state.document, again.job),
    history: again.past,
    notice: { says: `Done again: ${again.label}`, tone: "plain" },
  };
}

/** `job` is what was written: edits made while it was being written stay unsaved. */
export function jobSaved(state: SheetState, job: JobJson, name: string, token: string): SheetState {
  if (state.document === null) return state;
  const document = { ...state.document, token, name, onDisk: true, saved: job };
  return {
    ...state,
    document: withJob(document, document.job),
    dialog: null,
    notice: { says: `Saved as ${name}`, tone: "plain" },
  };
}

export function runWaiting(state: SheetState): SheetState {
  return { ...state, run: { ...idleRun, status: "waiting" } };
}

export function runStarted(state: SheetState, id: string, job: JobJson): SheetState {
  return { ...state, run: { ...idleRun, status: "working", id, job, what: "Reading the job" }, outcome: null };
}

export function runStopping(state: SheetState): SheetState {
  return state.run.status === "working" ? { ...state, run: { ...state.run, status: "stopping" } } : state;
}

export function runLost(state: SheetState): SheetState {
  return { ...state, run: idleRun };
}

/** Keeps the layout and the selection where the new plan still has them. */
function withPlan(state: SheetState, plan: PlanFile, job: JobJson, warnings: readonly Problem[]): SheetState {
  const shown: ShownPlan = { plan, job, warnings };
  const layoutId = plan.layouts.some(({ id }) => id === state.layoutId) ? state.layoutId : null;
  const layout = plan.layouts.find(({ id }) => id === (layoutId ?? plan.chosen));
  const [kind, rest] = splitOnce(state.selected ?? "", ":");
  const gone =
    (kind === "panel" && !layout?.panels.some(({ id }) => id === rest)) ||
    (kind === "seam" && !layout?.seams.some((seam) => `${seam.elevation}/${seam.id}` === rest || seam.id === rest)) ||
    kind === "cut" ||
    kind === "layout";
  const selected = samePlace(state, layout) ?? (gone ? null : state.selected);
  return { ...state, shown, layoutId, selected, hovered: null };
}

/** A selected seam's name in the new layout, where one lies at the same place: seams are counted anew with every plan. */
function samePlace(state: SheetState, layout: PlanLayout | undefined): string | null {
  const before = state.shown?.plan.layouts.find(({ id }) => id === (state.layoutId ?? state.shown?.plan.chosen));
  const seam = before?.seams.find((one) => seamName(one) === state.selected);
  const next = layout?.seams.find(
    (one) => one.elevation === seam?.elevation && one.axis === seam.axis && one.at === seam.at,
  );
  return next === undefined ? null : seamName(next);
}

function splitOnce(text: string, mark: string): [string, string] {
  const place = text.indexOf(mark);
  return place < 0 ? [text, ""] : [text.slice(0, place), text.slice(place + 1)];
}

export function runProgressed(state: SheetState, event: EventBody<"planProgress">): SheetState {
  if (event.runId !== state.run.id || state.run.job === null) return state;
  const { done, of, what, seconds, standing } = event;
  const standings = standing === null ? state.run.standings : withStanding(state.run.standings, standing);
  const next = { ...state, run: { ...state.run, done, of, what, seconds, standings } };
  return event.plan === null ? next : withPlan(next, event.plan, state.run.job, state.reading.warnings);
}

export function runDone(state: SheetState, event: EventBody<"planDone">): SheetState {
  if (event.runId !== state.run.id || state.run.job === null) return state;
  const stopped = state.run.status === "stopping";
  const { seconds, standings } = event;
  const run: RunState = { ...state.run, status: stopped ? "stopped" : "done", seconds, standings };
  return withOutcome({ ...state, run }, event.outcome, state.run.job);
}

function withOutcome(state: SheetState, outcome: PlanOutcome, job: JobJson): SheetState {
  switch (outcome.status) {
    case "planned": {
      const { plan, warnings } = outcome;
      return withPlan({ ...state, outcome: null, reading: { problems: [], warnings } }, plan, job, warnings);
    }
    case "badJob": {
      const { problems, warnings } = outcome;
      return { ...state, outcome, reading: { problems, warnings } };
    }
    case "noPlan":
      return { ...state, outcome, shown: null, reading: { ...state.reading, problems: [] } };
    case "stopped":
    case "failed":
      return { ...state, outcome };
  }
}

export function thingSelected(state: SheetState, selected: string | null): SheetState {
  return state.selected === selected ? state : { ...state, selected };
}

export function thingHovered(state: SheetState, hovered: string | null): SheetState {
  return state.hovered === hovered ? state : { ...state, hovered };
}

export function layoutShown(state: SheetState, layoutId: string | null): SheetState {
  if (state.layoutId === layoutId) return state;
  const onFilm = state.selected !== null && /^(piece|cut|seam|panel):/.test(state.selected);
  return { ...state, layoutId, hovered: null, selected: onFilm ? null : state.selected };
}

export function viewChanged(state: SheetState, change: Partial<ViewState>): SheetState {
  return { ...state, view: { ...state.view, ...change } };
}

export function dialogShown(state: SheetState, dialog: SheetState["dialog"]): SheetState {
  return { ...state, dialog };
}

export function noticeGiven(state: SheetState, says: string, tone: "plain" | "attention" = "plain"): SheetState {
  return { ...state, notice: { says, tone } };
}

export function noticeTaken(state: SheetState): SheetState {
  return state.notice === null ? state : { ...state, notice: null };
}
