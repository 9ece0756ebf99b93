import type { Problem } from "../../../shared/problem.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";

/** One kind of published question that the `solve` command answers. */
export interface PublishedKind {
  /** What `kind` in the file says; several where one reader serves them. */
  readonly kinds: readonly string[];
  /** Reads the instance, and holds its answer ready. */
  readonly read: (named: NamedInstance) => Readable;
}

export type Readable =
  | { readonly solve: (search: Search) => Answer | Promise<Answer> }
  /** `noPlan`: the question is well formed, but nothing can answer it. */
  | { readonly problems: readonly Problem[]; readonly noPlan?: true };

export interface Search {
  /** True ends the search with the best answer so far. Each time it is asked counts as one step of `--work`. */
  readonly stop: () => boolean;
  /** Null where the command names none. */
  readonly seed: number | null;
  readonly threads: number | null;
}

export interface Answer {
  readonly objective: number;
  /** The proven bound on the objective: from below where it is minimised, from above where it is maximised. */
  readonly lowerBound: number;
  readonly provenOptimal: boolean;
  /** What was found, printed after the fields that every kind has. */
  readonly found: Readonly<Record<string, unknown>>;
}
