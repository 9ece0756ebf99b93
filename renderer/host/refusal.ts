import type { Problem } from "../../shared/problem.ts";

/** The host answered, and the answer was no. `message` is for people. */
export class Refused extends Error {
  override readonly name = "Refused";
  readonly problems: readonly Problem[];

  constructor(refused: string, problems: readonly Problem[]) {
    super(refused);
    this.problems = problems;
  }
}

/** The host did not answer. Nothing is known about what became of the call. */
export class Unreachable extends Error {
  override readonly name = "Unreachable";
}
