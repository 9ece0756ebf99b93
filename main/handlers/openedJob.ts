import { readJobText } from "../../core/index.ts";
import type { JobJson, OpenedJob } from "../../shared/host.ts";

/** The document as it stands in the text, unknown keys and all; null when the text is no JSON object. */
function documentIn(text: string): JobJson | null {
  try {
    const data: unknown = JSON.parse(text.startsWith("\uFEFF") ? text.slice(1) : text);
    return typeof data === "object" && data !== null && !Array.isArray(data) ? (data as JobJson) : null;
  } catch {
    return null; // readJobText says where it breaks
  }
}

/** A file's text as a job with all that is wrong with it. Text that is no document is never written over. */
export function openedJob(text: string, name: string, path: string | null, keep: Keep): OpenedJob {
  const { problems, warnings } = readJobText(text);
  const document = documentIn(text);
  const kept = document === null ? null : path;
  return {
    token: keep({ name, path: kept }),
    name,
    onDisk: kept !== null,
    job: document ?? {},
    problems,
    warnings,
  };
}

type Keep = (job: { name: string; path: string | null }) => string;
