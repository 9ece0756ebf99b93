import { z } from "../../shared/zod.ts";
import { firstView, type ViewState } from "./sheetState.ts";

const key = "lapwright.view";

const Stored = z.object({
  theme: z.enum(["system", "light", "dark"]),
  folded: z.object({ covered: z.boolean(), compared: z.boolean(), printed: z.boolean() }),
  seconds: z.number().positive().max(3600),
  singleKeys: z.boolean(),
});

/** How the sheet was last looked at: theme, folded bands, search time. What can't be read counts as never set. */
export function viewFrom(storage: Storage): ViewState {
  try {
    const read = Stored.safeParse(JSON.parse(storage.getItem(key) ?? "null"));
    return read.success ? { ...firstView, ...read.data } : firstView;
  } catch {
    return firstView;
  }
}

/** A store that is full or shut only means that the choice lasts for this window. */
export function keepView(storage: Storage, view: ViewState): void {
  const { theme, folded, seconds, singleKeys } = view;
  try {
    storage.setItem(key, JSON.stringify({ theme, folded, seconds, singleKeys }));
  } catch {
    return;
  }
}
