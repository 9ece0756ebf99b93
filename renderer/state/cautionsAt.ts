import type { Caution } from "./cautions.ts";

/** The cautions met anywhere on one elevation. */
export function cautionsAt(cautions: readonly Caution[], elevation: string): Caution[] {
  return cautions.filter(({ at }) =>
    at.some((thing) => thing === `elevation:${elevation}` || thing.startsWith(`zone:${elevation}/`)),
  );
}
