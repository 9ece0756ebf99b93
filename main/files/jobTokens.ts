import { randomBytes } from "node:crypto";
import { resolve } from "node:path";

export interface HeldJob {
  /** File name without its folder, or a proposed one. */
  readonly name: string;
  /** Where it can be written back to; null when nowhere. */
  readonly path: string | null;
}

/** Jobs by token: paths stay here, and what crosses to a window is worth nothing elsewhere. */
export interface JobTokens {
  /** The token of that job; one path has one token. */
  readonly keep: (job: HeldJob) => string;
  readonly find: (token: string) => HeldJob | null;
}

/** Most jobs without a path that are remembered; the oldest is forgotten first, for none can be written back. */
const mostLoose = 1000;

export function jobTokens(): JobTokens {
  const byToken = new Map<string, HeldJob>();
  const byPath = new Map<string, string>();
  const loose: string[] = [];
  const keep = (job: HeldJob): string => {
    const path = job.path === null ? null : resolve(job.path);
    const known = path === null ? undefined : byPath.get(path);
    const token = known ?? randomBytes(18).toString("base64url");
    byToken.set(token, { name: job.name, path });
    if (path !== null) byPath.set(path, token);
    else {
      loose.push(token);
      if (loose.length > mostLoose) byToken.delete(loose.shift() as string);
    }
    return token;
  };
  return { keep, find: (token) => byToken.get(token) ?? null };
}
