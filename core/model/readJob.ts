import { JobFile } from "../../shared/jobFile.ts";
import { upgradeJob } from "../../shared/upgrades.ts";
import { jsonFault } from "./jsonFault.ts";
import { nearestKey } from "./nearestKey.ts";
import type { Problem } from "./problem.ts";
import { pathOf, shown } from "./problemLog.ts";
import { problemsBesides } from "./problemsBesides.ts";
import { schemaProblems } from "./schemaProblems.ts";
import { walkSchema } from "./schemaWalk.ts";

/** Most bytes of a job file: 20 MB. */
export const largestFile = 20_000_000;

export interface JobReading {
  /** The job with defaults filled in; null when there are problems. */
  readonly job: JobFile | null;
  readonly problems: Problem[];
  readonly warnings: Problem[];
}

/**
 * Reads a job document. What needs two fields together is found by `buildInstance`; where a field can't be read, what
 * that would find besides is told here too, so that nobody mends a file in two rounds.
 *
 * @param data parsed JSON, or what stands in a form
 * @returns the job, or null with every problem of the document; unknown keys as warnings, with the nearest known key
 *
 * Time O(size of the document).
 */
export function readJob(data: unknown): JobReading {
  const wrong = notAJob(data);
  if (wrong) return { job: null, problems: [wrong], warnings: [] };
  const upgraded = upgradeJob(data as Record<string, unknown>);
  if (!upgraded.ok) return { job: null, problems: [upgraded.problem], warnings: [] };
  const warnings: Problem[] = [];
  const cleaned = walkSchema(JobFile, upgraded.document, [], ({ place, value, key, known }) => {
    const near = nearestKey(key, known);
    warnings.push({
      path: pathOf(place),
      value: shown(value),
      why: near
        ? `${key}: did you mean ${near}? As it stands it is kept but has no effect.`
        : `${key} is not known here; it is kept but has no effect.`,
      mend: near ? `Rename it to ${near}.` : "Leave it, or remove it if it was meant to do something.",
    });
  });
  const parsed = JobFile.safeParse(cleaned);
  if (parsed.success) return { job: parsed.data, problems: [], warnings };
  const { issues } = parsed.error;
  const places = issues.map(({ path }) => path.map((step) => (typeof step === "symbol" ? String(step) : step)));
  const problems = [...schemaProblems(JobFile, cleaned, issues, "job"), ...problemsBesides(cleaned, places)];
  return { job: null, problems, warnings };
}

/**
 * Reads the text of a job file.
 *
 * @param text the whole file, decoded
 * @returns as `readJob`; text that is not JSON or is over 20 MB gives one problem, with line and column where it breaks
 */
export function readJobText(text: string): JobReading {
  const refused = (value: unknown, why: string, mend: string): JobReading => ({
    job: null,
    problems: [{ path: "job", value, why, mend }],
    warnings: [],
  });
  const bytes = utf8Length(text);
  if (bytes > largestFile) {
    return refused(
      bytes,
      "The file is over 20 MB.",
      "Split the job, or simplify outlines that have thousands of points.",
    );
  }
  const json = text.startsWith("\uFEFF") ? text.slice(1) : text;
  if (json.trim() === "") return refused("", "The file is empty.", "Open another file, or start a new job.");
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch (error) {
    const fault = jsonFault(json);
    if (fault === null) throw error; // The parser and the grammar disagree: a fault of this program, not of the file.
    const { line, column, found, expected } = fault;
    return refused(
      found,
      `The file is not JSON: line ${line}, column ${column} has ${found} where ${expected} should stand.`,
      `Mend line ${line} near column ${column}.`,
    );
  }
  return readJob(data);
}

/** Says so when the document is no job at all, since the rest of it would then only add noise. */
function notAJob(data: unknown): Problem | null {
  if (typeof data !== "object" || data === null || Array.isArray(data)) {
    return {
      path: "job",
      value: shown(data),
      why: "This is not a job: it is not a group of named values.",
      mend: "Open a Lapwright job file.",
    };
  }
  const format = (data as Record<string, unknown>).format;
  if (format === undefined || format === "lapwright-job") return null;
  if (format === "lapwright-plan") {
    return {
      path: "format",
      value: format,
      why: "This is a plan, not a job.",
      mend: "Open the job file that the plan was made from.",
    };
  }
  return {
    path: "format",
    value: shown(format),
    why: "This file is not a Lapwright job.",
    mend: 'Give "format" as "lapwright-job" if it is one.',
  };
}

/** Bytes of the text in UTF-8; lone surrogates count as the three bytes of their replacement. */
function utf8Length(text: string): number {
  if (text.length > largestFile || text.length * 3 <= largestFile) return text.length;
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    bytes += code < 0x80 ? 1 : code < 0x800 || (code >= 0xd800 && code <= 0xdfff) ? 2 : 3;
  }
  return bytes;
}
