import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { solveCommand } from "../../main/cli/solveCommand.ts";
import { sharedFolder } from "../support/sharedFolder.ts";

/** A published set of instances, solved one by one by the command that anyone can run on them. */

export interface PublishedInstance {
  readonly name: string;
  readonly kind?: string;
}

const pathOf = (file: string): string => join(sharedFolder, "benchmarks", file);

/** The instances of a file in `../shared/benchmarks`; null where the folder is absent. */
export function publishedSet<I extends PublishedInstance>(file: string): readonly I[] | null {
  return existsSync(pathOf(file)) ? (JSON.parse(readFileSync(pathOf(file), "utf8")) as I[]) : null;
}

export interface Solved {
  readonly objective: number;
  readonly lowerBound: number;
  readonly provenOptimal: boolean;
  /** On this clock, from the call to the answer. */
  readonly seconds: number;
}

export interface SolvingWish {
  readonly instance: PublishedInstance;
  readonly seconds: number;
  readonly seed: number;
}

/**
 * Runs `solve` in this process.
 *
 * @returns its answer and all that it printed; null when there is no engine for the instance's kind
 * @throws Error with what it said, when it refused for any other reason
 */
export async function solved(
  wish: SolvingWish,
): Promise<(Solved & { readonly whole: Record<string, unknown> }) | null> {
  const { instance, seconds, seed } = wish;
  let out = "";
  let err = "";
  const terminal = {
    out: (text: string): void => {
      out += text;
    },
    err: (text: string): void => {
      err += text;
    },
    watched: false,
  };
  // In a file by itself: some names stand more than once in their set.
  const folder = mkdtempSync(join(tmpdir(), "lapwright-bench-"));
  const path = join(folder, "instance.json");
  writeFileSync(path, JSON.stringify([instance]));
  const args = [path, "--seconds", `${seconds}`, "--seed", `${seed}`, "--json"];
  const began = performance.now();
  const status = await solveCommand(args, terminal, () => performance.now()).finally(() =>
    rmSync(folder, { recursive: true }),
  );
  const taken = (performance.now() - began) / 1000;
  if (status !== 0) {
    if (/no engine for this kind/i.test(err)) return null;
    throw new Error(`solving ${instance.name} ended with status ${status}: ${err}`);
  }
  const whole = JSON.parse(out) as Record<string, unknown> & Omit<Solved, "seconds">;
  const { objective, lowerBound, provenOptimal } = whole;
  return { objective, lowerBound, provenOptimal, seconds: taken, whole };
}

/** What a part says where it can't measure. */
export const leftOut = {
  noData: "left out: the published sets are not beside the project",
  noEngine: "left out: there is no engine for this kind yet",
} as const;

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
