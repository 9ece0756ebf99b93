import { z } from "../../shared/zod.ts";
import type { Draft } from "./sheetState.ts";

const prefix = "lapwright.draft.";

const StoredDraft = z.object({
  id: z.string(),
  name: z.string(),
  job: z.record(z.string(), z.unknown()),
  at: z.number(),
});

/** Unsaved work in the browser's own store, one entry per window, so that closing or crashing loses nothing. */
export interface Drafts {
  /** Every draft there is, newest first. Entries that can't be read are left alone, not deleted. */
  readonly all: () => Draft[];
  /** Keeps a draft; says why when the store is full or shut. */
  readonly keep: (draft: Draft) => string | null;
  readonly drop: (id: string) => void;
}

export function draftsIn(storage: Storage): Drafts {
  return {
    all: () => {
      const found: Draft[] = [];
      for (let place = 0; place < storage.length; place++) {
        const key = storage.key(place);
        if (key === null || !key.startsWith(prefix)) continue;
        const draft = readDraft(storage.getItem(key));
        if (draft !== null) found.push(draft);
      }
      return found.sort((a, b) => b.at - a.at);
    },
    keep: (draft) => {
      try {
        storage.setItem(prefix + draft.id, JSON.stringify(draft));
        return null;
      } catch (cause) {
        return cause instanceof Error ? cause.message : String(cause);
      }
    },
    drop: (id) => storage.removeItem(prefix + id),
  };
}

function readDraft(text: string | null): Draft | null {
  if (text === null) return null;
  try {
    const read = StoredDraft.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null; // kept in the store as it is; another version may read it
  }
}
