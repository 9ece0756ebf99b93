export type { Problem } from "../../shared/problem.ts";
