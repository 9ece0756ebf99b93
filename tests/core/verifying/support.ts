import { readFileSync } from "node:fs";
import { buildInstance } from "../../../core/model/buildInstance.ts";
import type { Instance } from "../../../core/model/instance.ts";
import type { Plan } from "../../../core/model/plan.ts";
import { readPlan } from "../../../core/model/planDocument.ts";
import { readJob } from "../../../core/model/readJob.ts";
import type { Violation } from "../../../core/model/violation.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";

/** The text of a file of tests/data. */
const dataText = (name: string): string => readFileSync(new URL(`../../data/${name}`, import.meta.url), "utf8");

/** A fresh copy of the job worked out by hand, and of its plan, as their files hold them. */
// biome-ignore lint/suspicious/noExplicitAny: the tests change single fields of plain documents.
export type Document = any;
export const boothJob = (): Document => JSON.parse(dataText("puppet-booth.job.json"));
export const boothPlan = (): Document => JSON.parse(dataText("puppet-booth.plan.json"));

/** The instance of a job document; fails the test with the problems of a bad one. */
export function instanceOf(document: Document): Instance {
  const reading = readJob(document);
  if (reading.job === null) throw new Error(JSON.stringify(reading.problems));
  const built = buildInstance(reading.job);
  if ("problems" in built) throw new Error(JSON.stringify(built.problems));
  return built.instance;
}

/** The plan of a plan document; fails the test with the problems of a bad one. */
export function planOf(document: Document): Plan {
  const reading = readPlan(document);
  if (reading.plan === null) throw new Error(JSON.stringify(reading.problems));
  return reading.plan;
}

export const verified = (job: Document, plan: Document): Violation[] => verifyPlan(instanceOf(job), planOf(plan));

/** Rules broken, each once, in order of the alphabet. */
export const rulesBroken = (violations: readonly Violation[]): string[] =>
  [...new Set(violations.map(({ rule }) => rule))].sort();
