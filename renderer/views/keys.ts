import type { Commands } from "../state/sheet.ts";
import type { BandId, SheetState } from "../state/sheetState.ts";
import { zoomStep } from "./ZoomTools.tsx";

/** One action with its keys. `single` keys work without Control and can be switched off. */
export interface KeyAction {
  readonly keys: string;
  readonly does: string;
  readonly single?: boolean;
  readonly matches: (event: KeyboardEvent) => boolean;
  readonly run: (commands: Commands, state: SheetState) => void;
}

const withControl =
  (key: string, shift = false) =>
  (event: KeyboardEvent): boolean =>
    (event.ctrlKey || event.metaKey) && event.shiftKey === shift && event.key.toLowerCase() === key;

const bare =
  (...keys: string[]) =>
  (event: KeyboardEvent): boolean =>
    !event.ctrlKey && !event.metaKey && !event.altKey && keys.includes(event.key);

const goToBand =
  (id: BandId) =>
  (commands: Commands, state: SheetState): void => {
    if (state.view.folded[id]) commands.changeView({ folded: { ...state.view.folded, [id]: false } });
    const band = document.getElementById(id);
    band?.scrollIntoView({ block: "start" });
    band?.querySelector<HTMLElement>(".band-fold")?.focus({ preventScroll: true });
  };

const stepLayout =
  (step: number) =>
  (commands: Commands, state: SheetState): void => {
    const plan = state.shown?.plan;
    if (plan === undefined) return;
    const byCost = [...plan.layouts].sort((a, b) => a.totals.cost.total - b.totals.cost.total);
    const here = byCost.findIndex(({ id }) => id === (state.layoutId ?? plan.chosen));
    const next = byCost[Math.max(0, Math.min(byCost.length - 1, here + step))];
    if (next !== undefined) commands.showLayout(next.id);
  };

/** The scale that stands is read off the sheet, where the width of the window decided it. */
const zoomBy =
  (factor: number) =>
  (commands: Commands, state: SheetState): void => {
    const standing = state.view.zoom ?? Number(document.getElementById("covered-scale")?.dataset.pixels ?? 0);
    if (standing > 0) commands.changeView({ zoom: standing * factor });
  };

/** Every key of the sheet, in the order of the key sheet. */
export const keyActions: readonly KeyAction[] = [
  { keys: "Ctrl+O", does: "Open a job", matches: withControl("o"), run: (c) => void c.open() },
  { keys: "Ctrl+S", does: "Save", matches: withControl("s"), run: (c) => void c.save() },
  { keys: "Ctrl+Shift+S", does: "Save as", matches: withControl("s", true), run: (c) => void c.askSaveAs() },
  { keys: "Ctrl+Z", does: "Undo", matches: withControl("z"), run: (c) => c.undo() },
  {
    keys: "Ctrl+Shift+Z",
    does: "Redo (Ctrl+Y too)",
    matches: (event) => withControl("z", true)(event) || withControl("y")(event),
    run: (c) => c.redo(),
  },
  { keys: "Ctrl+Enter", does: "Plan again", matches: withControl("enter"), run: (c) => void c.plan() },
  { keys: "Ctrl+.", does: "Stop planning", matches: withControl("."), run: (c) => c.stop() },
  {
    keys: "Ctrl+E",
    does: "Export the layout shown",
    matches: withControl("e"),
    run: (c, state) => {
      if (state.shown !== null && state.shown.job === state.document?.job) c.showDialog({ kind: "export" });
    },
  },
  { keys: "1", does: "Go to what is covered", single: true, matches: bare("1"), run: goToBand("covered") },
  { keys: "2", does: "Go to how it could be done", single: true, matches: bare("2"), run: goToBand("compared") },
  { keys: "3", does: "Go to what is printed", single: true, matches: bare("3"), run: goToBand("printed") },
  {
    keys: "4",
    does: "Go to the details at the side",
    single: true,
    matches: bare("4"),
    run: () => document.getElementById("details")?.focus(),
  },
  { keys: "[", does: "Show the next cheaper layout", single: true, matches: bare("["), run: stepLayout(-1) },
  { keys: "]", does: "Show the next dearer layout", single: true, matches: bare("]"), run: stepLayout(1) },
  { keys: "+", does: "Larger drawings", single: true, matches: bare("+", "="), run: zoomBy(zoomStep) },
  { keys: "-", does: "Smaller drawings", single: true, matches: bare("-"), run: zoomBy(1 / zoomStep) },
  { keys: "0", does: "Fit the drawings", single: true, matches: bare("0"), run: (c) => c.changeView({ zoom: null }) },
  {
    keys: "T",
    does: "Light or dark",
    single: true,
    matches: bare("t", "T"),
    run: (c, state) => {
      const isDark =
        state.view.theme === "dark" ||
        (state.view.theme === "system" && window.matchMedia("(prefers-color-scheme: dark)").matches);
      c.changeView({ theme: isDark ? "light" : "dark" });
    },
  },
  { keys: "?", does: "This list", single: true, matches: bare("?"), run: (c) => c.showDialog({ kind: "keys" }) },
];

/** True while the hand types: single keys then belong to the text. */
function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement && (target.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName))
  );
}

/** Runs the action that a key stands for; true when there was one. */
export function runKey(event: KeyboardEvent, commands: Commands, state: SheetState): boolean {
  if (event.defaultPrevented || state.dialog !== null) return false;
  const typing = isTyping(event.target);
  if (event.key === "Escape" && !typing && state.selected !== null) {
    commands.select(null);
    return true;
  }
  // While text is typed, undo is the field's own.
  if (typing && (event.ctrlKey || event.metaKey) && /^[zy]$/i.test(event.key)) return false;
  const action = keyActions.find((one) => one.matches(event));
  if (action === undefined || (action.single === true && (typing || !state.view.singleKeys))) return false;
  event.preventDefault();
  // What is being typed is taken in first, as when the field is left.
  if (typing && event.target instanceof HTMLElement) event.target.blur();
  action.run(commands, state);
  return true;
}
