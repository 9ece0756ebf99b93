import loadHighs from "highs";
import type { ProgrammeEngine } from "../../core/index.ts";
import { highsEngine } from "./highsEngine.ts";

/**
 * Loads the HiGHS solver, 3.5 MB of WebAssembly beside its package, as an engine without a limit of time.
 *
 * @throws what the package throws when the file is missing or the memory for it can't be had
 */
export async function loadHighsEngine(): Promise<ProgrammeEngine> {
  return highsEngine(await loadHighs());
}
