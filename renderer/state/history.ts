import { applyPatches, enablePatches, type Patch, produceWithPatches } from "immer";
import type { JobJson } from "../../shared/host.ts";

enablePatches();

/** One edit of the job, by name, with what undoes it. */
export interface EditStep {
  readonly label: string;
  readonly patches: readonly Patch[];
  readonly inverse: readonly Patch[];
}

/** Edits made, oldest first, and edits taken back, the last one taken back at the end. */
export interface Past {
  readonly done: readonly EditStep[];
  readonly undone: readonly EditStep[];
}

/** Steps kept; older ones can no longer be undone. */
const kept = 500;

/** Changes the job by a recipe on its draft. An edit that changes nothing leaves everything as it was. */
export function edit(
  job: JobJson,
  past: Past,
  label: string,
  recipe: (draft: JobJson) => void,
): { job: JobJson; past: Past } {
  const [next, patches, inverse] = produceWithPatches(job, (draft) => {
    recipe(draft);
  });
  if (next === job || patches.length === 0) return { job, past };
  return { job: next, past: { done: [...past.done, { label, patches, inverse }].slice(-kept), undone: [] } };
}

/** Takes the last edit back; null when there is none. */
export function undo(job: JobJson, past: Past): { job: JobJson; past: Past; label: string } | null {
  const step = past.done.at(-1);
  if (step === undefined) return null;
  return {
    job: applyPatches(job, [...step.inverse]),
    past: { done: past.done.slice(0, -1), undone: [...past.undone, step] },
    label: step.label,
  };
}

/** Does the edit again that was taken back last; null when there is none. */
export function redo(job: JobJson, past: Past): { job: JobJson; past: Past; label: string } | null {
  const step = past.undone.at(-1);
  if (step === undefined) return null;
  return {
    job: applyPatches(job, [...step.patches]),
    past: { done: [...past.done, step], undone: past.undone.slice(0, -1) },
    label: step.label,
  };
}
