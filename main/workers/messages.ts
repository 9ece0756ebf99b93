import type { Budget, JobJson, PlanOutcome } from "../../shared/host.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import type { Standing } from "../../shared/standing.ts";

/** What a planning worker is started with. */
export interface PlanAssignment {
  readonly job: JobJson;
  readonly seed: number;
  readonly budget: Budget;
  /** One Int32; anything but 0 asks the worker to wind up. */
  readonly stop: SharedArrayBuffer;
}

/** A standing before the run's own clock has dated it. */
export type ReachedStanding = Omit<Standing, "seconds">;

/** What a planning worker sends. Every plan in it has passed the verifier; the outcome comes once and last. */
export type WorkerMessage =
  | { readonly kind: "warnings"; readonly warnings: readonly Problem[] }
  | { readonly kind: "step"; readonly done: number; readonly of: number; readonly what: string }
  | { readonly kind: "plan"; readonly plan: PlanFile }
  | { readonly kind: "standing"; readonly standing: ReachedStanding }
  | { readonly kind: "outcome"; readonly outcome: PlanOutcome };
