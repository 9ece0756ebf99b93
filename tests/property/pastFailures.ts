import type { JobDocument } from "../../shared/jobFile.ts";

/** Jobs that once failed a property, smallest form found, each named by what was wrong. */
export const pastFailures: readonly JobDocument[] = [];
