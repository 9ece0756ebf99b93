import type { HostRefusal } from "../../shared/host.ts";
import type { Problem } from "../../shared/problem.ts";

/** Why a call is refused: the input is wrong, what it names is not there, or this host does not do that now. */
export type RefusalKind = "badInput" | "unknown" | "notNow";

/** A call that ends with "no". The message is for people and holds no path. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  readonly kind: RefusalKind;
  readonly problems: readonly Problem[];

  constructor(kind: RefusalKind, message: string, problems: readonly Problem[] = []) {
    super(message);
    this.kind = kind;
    this.problems = problems;
  }

  /** How it travels. */
  body(): HostRefusal {
    return { refused: this.message, problems: [...this.problems] };
  }
}
