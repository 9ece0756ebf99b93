import type { Problem } from "./problem.ts";

/**
 * Numbered steps from one version of the job file to the next. Step n turns a document of version n into one of version
 * n + 1 and never loses a key. Only version 1 exists so far, so there is no step yet; a new version adds its number here,
 * one step, and a test with an old file.
 */
export const jobVersion = 1;

type Document = Readonly<Record<string, unknown>>;
export type UpgradeStep = (document: Document) => Document;

export const jobSteps: Readonly<Record<number, UpgradeStep>> = {};

export type Upgraded =
  | { readonly ok: true; readonly document: Document }
  | { readonly ok: false; readonly problem: Problem };

/**
 * Brings a job document to the newest version, step by step.
 *
 * A document without a whole-numbered version passes unchanged: the schema says what is wrong with it.
 * A newer version than this program knows is refused, since what it means can only be guessed.
 */
export function upgradeJob(document: Document, steps = jobSteps, newest = jobVersion): Upgraded {
  const version = document.version;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) return { ok: true, document };
  if (version > newest) {
    return {
      ok: false,
      problem: {
        path: "version",
        value: version,
        why: `The file is of version ${version}; this program reads versions up to ${newest}.`,
        mend: "Open it with a newer Lapwright.",
      },
    };
  }
  let upgraded = document;
  for (let from = version; from < newest; from++) {
    const step = steps[from];
    if (step === undefined) throw new Error(`no step from version ${from} to ${from + 1} of the job file`);
    upgraded = step(upgraded);
  }
  return { ok: true, document: upgraded };
}
