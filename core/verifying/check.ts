import type { Plan } from "../model/plan.ts";
import type { Violation } from "../model/violation.ts";
import type { Job } from "./job.ts";
import type { LayoutView } from "./layoutView.ts";

/** One rule held against one layout: every breach of it, or an empty list. Never throws, whatever the layout holds. */
export type LayoutCheck = (view: LayoutView) => Violation[];

/** One rule that takes more than one layout. */
export type PlanCheck = (job: Job, plan: Plan) => Violation[];

/** Says breaches of one rule. */
export const breachOf =
  (rule: string) =>
  (at: readonly string[], says: string): Violation => ({ rule, at, says });

/** Most breaches of one rule told of one load: after that many the next one tells nothing new. */
export const MOST_PER_LOAD = 100;
