import { loadHighsEngine } from "../../main/workers/highsLoader.ts";

/** The engine as the planning worker loads it, once for a test file. */
export const highs = await loadHighsEngine();
