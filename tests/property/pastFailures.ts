import type { JobDocument } from "../../shared/jobFile.ts";

/** Jobs that once failed a property, smallest form found, each named by what was wrong. */
export const pastFailures: readonly JobDocument[] = [];

/** The same for the tiny jobs that are held against a plain search. */
export const pastTinyFailures: readonly JobDocument[] = [];
