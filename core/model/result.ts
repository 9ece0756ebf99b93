import type { Problem } from "../../shared/problem.ts";
import type { Plan } from "./plan.ts";

/** What became of a question. "No plan exists" carries its reasons; "stopped" is not dressed up as either. */
export type Result =
  | { readonly status: "planned"; readonly plan: Plan }
  | { readonly status: "noPlan"; readonly reasons: readonly Problem[] }
  | { readonly status: "stopped" };
