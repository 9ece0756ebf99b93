import { createStore, type StoreApi } from "zustand/vanilla";
import type { ExportKind, Host, JobJson, OpenedJob } from "../../shared/host.ts";
import { Refused, Unreachable } from "../host/refusal.ts";
import type { Drafts } from "./drafts.ts";
import { newJob } from "./newJob.ts";
import * as become from "./reducers.ts";
import { firstState, isEdited, type LeaveTo, type SheetState, type ViewState } from "./sheetState.ts";

export interface Surroundings {
  readonly host: Host;
  readonly drafts: Drafts;
  readonly view: ViewState;
  readonly keepView: (view: ViewState) => void;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** A name that no other run or draft has. */
  readonly newId: () => string;
  /** Hands a file to the browser to be kept. */
  readonly keepFile: (file: { name: string; mime: string; text: string }) => void;
}

export interface Sheet {
  readonly store: StoreApi<SheetState>;
  readonly commands: Commands;
}

export type Commands = ReturnType<typeof commandsOf>;

/** How long the hand must rest after an edit before the job is planned again, in milliseconds. */
const restBeforePlanning = 350;
const restBeforeDraft = 250;
/** How long a new run waits for the end of those before it, and how often it looks, in milliseconds. */
const patience = 3000;
const step = 20;

const pause = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds));

/** The store and everything that can be done to it. One sheet to a window. */
export function createSheet(surroundings: Surroundings): Sheet {
  const store = createStore<SheetState>(() => ({ ...firstState, view: surroundings.view }));
  return { store, commands: commandsOf(store, surroundings) };
}

function commandsOf(store: StoreApi<SheetState>, around: Surroundings) {
  const { host, drafts } = around;
  let planTimer: ReturnType<typeof setTimeout> | null = null;
  let draftTimer: ReturnType<typeof setTimeout> | null = null;
  /** The draft of the job that is open now; another job gets another. */
  let draftId = around.newId();

  const change = <Rest extends unknown[]>(reducer: (state: SheetState, ...rest: Rest) => SheetState, ...rest: Rest) =>
    store.setState((state) => reducer(state, ...rest), true);

  /** Runs what needs the host; a refusal or a silence is said on the sheet, anything else is a fault and goes up. */
  const asking = async <T>(ask: () => Promise<T>): Promise<T | undefined> => {
    try {
      return await ask();
    } catch (cause) {
      if (cause instanceof Refused) {
        const first = cause.problems[0];
        const more = first === undefined ? "" : ` ${first.why} ${first.mend}`;
        change(become.noticeGiven, `${cause.message}${more}`, "attention");
      } else if (cause instanceof Unreachable) {
        change(become.noticeGiven, `${cause.message} Your work is kept in this window.`, "attention");
      } else throw cause;
      return undefined;
    }
  };

  const keepDraftNow = (): void => {
    if (draftTimer !== null) clearTimeout(draftTimer);
    draftTimer = null;
    const { document } = store.getState();
    if (document === null) return;
    if (!isEdited(document)) {
      drafts.drop(draftId);
      return;
    }
    const fault = drafts.keep({ id: draftId, name: document.name, job: document.job, at: around.now() });
    if (fault !== null) change(become.noticeGiven, `Unsaved work can't be kept by the browser: ${fault}`, "attention");
  };

  /** Runs told to end whose end was not heard yet: the host takes only so many at one time. */
  const ending = new Set<string>();

  const endRun = (): void => {
    if (planTimer !== null) clearTimeout(planTimer);
    planTimer = null;
    const { run } = store.getState();
    if (run.id !== null && (run.status === "working" || run.status === "stopping")) {
      const { id } = run;
      ending.add(id);
      void asking(() => host.stopPlan({ runId: id })).then((answer) => {
        if (answer?.known === false) ending.delete(id);
      });
    }
  };

  const plan = async (): Promise<void> => {
    endRun();
    const { document, view } = store.getState();
    if (document === null) return;
    const id = around.newId();
    change(become.runStarted, id, document.job);
    const isWanted = (): boolean => store.getState().run.id === id && store.getState().run.status === "working";
    for (let waited = 0; isWanted() && ending.size > 0 && waited < patience; waited += step) await pause(step);
    if (!isWanted()) {
      // Stopped before it began: the host never knew of it.
      if (store.getState().run.id === id) change(become.runLost);
      return;
    }
    ending.clear();
    const started = await asking(() =>
      host.startPlan({ runId: id, job: document.job, seed: 1, budget: { seconds: view.seconds } }),
    );
    if (started === undefined && store.getState().run.id === id) change(become.runLost);
  };

  const planWhenResting = (): void => {
    endRun();
    change(become.runWaiting);
    planTimer = setTimeout(() => void plan(), restBeforePlanning);
  };

  const afterEdit = (before: SheetState): void => {
    if (store.getState().document?.job === before.document?.job) return;
    if (draftTimer !== null) clearTimeout(draftTimer);
    draftTimer = setTimeout(keepDraftNow, restBeforeDraft);
    planWhenResting();
  };

  const takeUp = (opened: OpenedJob): void => {
    keepDraftNow();
    endRun();
    draftId = around.newId();
    change(become.jobOpened, opened);
    planOpened(opened);
  };

  /** A file that can't be read has said why already; there is nothing to plan until it is mended. */
  const planOpened = (opened: OpenedJob): void => {
    if (opened.problems.length === 0) void plan();
  };

  /** Leaves the open job for another; the draft of what was unsaved is dropped, because the user said so. */
  const leave = async (then: LeaveTo): Promise<void> => {
    const opened = await asking(() => openAt(then));
    if (opened === undefined || opened === null) return;
    drafts.drop(draftId);
    draftId = around.newId();
    endRun();
    if (then.to === "draft") {
      const draft = store.getState().offered.find(({ id }) => id === then.id);
      if (draft === undefined) return;
      draftId = draft.id;
      change(become.draftTakenUp, opened, draft);
    } else {
      change(become.jobOpened, opened);
    }
    planOpened(opened);
  };

  const openAt = (where: LeaveTo): Promise<OpenedJob | null> => {
    switch (where.to) {
      case "listed":
        return host.openListed({ token: where.token });
      case "dialog":
        return host.openByDialog({});
      case "demo":
        return host.openDemo({});
      case "file":
        return host.adoptJob({ name: where.name, text: where.text });
      case "draft": {
        const draft = store.getState().offered.find(({ id }) => id === where.id);
        return draft === undefined
          ? Promise.resolve(null)
          : host.adoptJob({ name: draft.name, text: JSON.stringify(draft.job) });
      }
    }
  };

  /** Opens at once when nothing would be lost, else asks first. */
  const go = async (then: LeaveTo): Promise<void> => {
    if (isEdited(store.getState().document)) {
      keepDraftNow();
      change(become.dialogShown, { kind: "leave", then });
    } else await leave(then);
  };

  const saveAs = async (name: string, replace: boolean): Promise<void> => {
    const { document } = store.getState();
    if (document === null) return;
    const { job } = document;
    const answer = await asking(() => host.saveJobAs({ name, job, replace }));
    if (answer === undefined || answer === null) return;
    if (answer.saved) {
      change(become.jobSaved, job, answer.name, answer.token);
      keepDraftNow();
    } else change(become.dialogShown, { kind: "saveAs", name, exists: answer.exists });
  };

  host.on("planProgress", (event) => change(become.runProgressed, event));
  host.on("planDone", (event) => {
    ending.delete(event.runId);
    change(become.runDone, event);
  });

  return {
    /** Asks who serves this window, opens the first job and plans it; drafts of earlier windows are offered. */
    start: async (): Promise<void> => {
      const offered = drafts.all();
      if (offered.length > 0) change(become.draftsOffered, offered);
      const facts = await asking(() => host.hostInfo({}));
      if (facts !== undefined) change(become.hostKnown, facts);
      const first = await asking(() => host.openFirst({}));
      if (first !== undefined) takeUp(first);
    },
    connectionChanged: (standing: boolean): void => {
      const { connection, run } = store.getState();
      if (!standing && connection === "connecting") return;
      change(become.connectionChanged, standing ? "standing" : "lost");
      // A run whose end may have been missed is made anew; what it had found is still on the sheet.
      if (!standing && (run.status === "working" || run.status === "stopping")) change(become.runLost);
      if (standing && connection === "lost" && store.getState().run.status === "idle") void plan();
    },
    plan,
    stop: (): void => {
      const { run } = store.getState();
      if (run.status === "waiting") {
        endRun();
        change(become.runLost);
      } else if (run.id !== null && run.status === "working") {
        change(become.runStopping);
        endRun();
      }
    },
    edit: (label: string, recipe: (draft: JobJson) => void): void => {
      const before = store.getState();
      change(become.jobEdited, label, recipe);
      afterEdit(before);
    },
    undo: (): void => {
      const before = store.getState();
      change(become.editUndone);
      afterEdit(before);
    },
    redo: (): void => {
      const before = store.getState();
      change(become.editRedone);
      afterEdit(before);
    },
    /** Opens through the system's dialog where there is one, else shows the list of the work folder. */
    open: async (): Promise<void> => {
      if (store.getState().host?.dialogs === true) await go({ to: "dialog" });
      else change(become.dialogShown, { kind: "open" });
    },
    go,
    leave,
    newJob: (unit: "in" | "mm"): Promise<void> =>
      go({ to: "file", name: "New.job.json", text: JSON.stringify(newJob(unit)) }),
    listJobs: async () => (await asking(() => host.listJobs({})))?.jobs ?? [],
    save: async (): Promise<void> => {
      const { document, host: facts } = store.getState();
      if (document === null) return;
      if (!document.onDisk) {
        if (facts?.dialogs === true) await saveAs(document.name, false);
        else change(become.dialogShown, { kind: "saveAs", name: document.name, exists: null });
        return;
      }
      const { token, job } = document;
      const answer = await asking(() => host.saveJob({ token, job }));
      if (answer === undefined) return;
      change(become.jobSaved, job, answer.name, token);
      keepDraftNow();
    },
    askSaveAs: async (): Promise<void> => {
      const { document, host: facts } = store.getState();
      if (document === null) return;
      if (facts?.dialogs === true) await saveAs(document.name, false);
      else change(become.dialogShown, { kind: "saveAs", name: document.name, exists: null });
    },
    saveAs,
    exportLayout: async (layout: string, kinds: ExportKind[]): Promise<void> => {
      const { shown } = store.getState();
      if (shown === null) return;
      const answer = await asking(() => host.exportPlan({ job: shown.job, plan: shown.plan, layout, kinds }));
      if (answer === undefined) return;
      change(become.dialogShown, null);
      if (answer.delivered === "folder") {
        change(become.noticeGiven, `Written to ${answer.folder}: ${answer.names.join(", ")}`);
      } else if (answer.delivered === "files") {
        for (const file of answer.files) around.keepFile(file);
        change(become.noticeGiven, `Handed to the browser to save: ${answer.files.map(({ name }) => name).join(", ")}`);
      }
    },
    putDraftAway: (id: string): void => {
      drafts.drop(id);
      change(become.draftPutAway, id);
    },
    keepDraftNow,
    select: (id: string | null): void => change(become.thingSelected, id),
    hover: (id: string | null): void => change(become.thingHovered, id),
    showLayout: (id: string | null): void => change(become.layoutShown, id),
    changeView: (part: Partial<ViewState>): void => {
      change(become.viewChanged, part);
      around.keepView(store.getState().view);
    },
    showDialog: (dialog: SheetState["dialog"]): void => change(become.dialogShown, dialog),
    notice: (says: string, tone: "plain" | "attention" = "plain"): void => change(become.noticeGiven, says, tone),
    takeNotice: (): void => change(become.noticeTaken),
  };
}
