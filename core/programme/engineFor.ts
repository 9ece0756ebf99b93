import { embeddedEngine } from "./embeddedEngine.ts";
import type { Programme, ProgrammeEngine } from "./programme.ts";

/** What the embedded engine is trusted with: see there. */
const MOST_VARIABLES = 5_000;
const MOST_BRANCHING = 50;

/**
 * The engine that suits a programme: the embedded one for what is small, the one handed in beyond that.
 *
 * @param handedIn an engine that the host loaded, if it did
 * @returns null when the programme is too large for the embedded engine and there is no other: the caller then does
 * without a proof
 */
export function engineFor({ variables }: Programme, handedIn?: ProgrammeEngine): ProgrammeEngine | null {
  const branching = variables.filter(({ whole }) => whole).length;
  if (variables.length <= MOST_VARIABLES && branching <= MOST_BRANCHING) return embeddedEngine;
  return handedIn ?? null;
}
