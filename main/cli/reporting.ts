import type { Problem } from "../../shared/problem.ts";

/** Where a command writes; a terminal in earnest, lists in tests. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Whether standard error is watched by a person, so that progress is worth showing. */
  readonly watched: boolean;
}

/** Exit statuses of every command. A fault of the program itself is none of the other three. */
export const status = { done: 0, fault: 1, badInput: 2, noPlan: 3 } as const;

/** Longest value that is quoted whole in a line, characters. */
const longestValue = 80;

function shownValue(value: unknown): string {
  const text = JSON.stringify(value) ?? "nothing";
  return text.length <= longestValue ? text : `${text.slice(0, longestValue - 3)}...`;
}

const oneLine = (text: string): string => text.replace(/\s+/g, " ").trim();

/** A problem as one line: where, what was found, what that means, what would help. */
export const problemLine = ({ path, value, why, mend }: Problem): string =>
  [path, shownValue(value), why, mend]
    .map(oneLine)
    .filter((part) => part !== "")
    .join(": ");

/** Tells problems on standard error: one a line, or all as one JSON list. */
export function tellProblems(terminal: Terminal, problems: readonly Problem[], json: boolean, prefix = ""): void {
  if (json) terminal.err(`${JSON.stringify(problems)}\n`);
  else terminal.err(problems.map((problem) => `${prefix}${problemLine(problem)}\n`).join(""));
}
