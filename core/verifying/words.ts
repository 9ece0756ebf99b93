import type { Box } from "../geometry/box.ts";
import { TICKS_PER, type Ticks, type Unit } from "../units/ticks.ts";

/** How the verifier writes numbers of one job. Seven decimals tell single ticks apart in inches. */
export interface Words {
  readonly length: (ticks: Ticks) => string;
  readonly box: (box: Box) => string;
}

export function wordsIn(unit: Unit): Words {
  const per = TICKS_PER[unit];
  const bare = (ticks: Ticks): string => trimmed(ticks / per);
  return {
    length: (ticks) => `${bare(ticks)} ${unit}`,
    box: ({ x0, y0, x1, y1 }) => `[${bare(x0)}, ${bare(y0)}, ${bare(x1)}, ${bare(y1)}] ${unit}`,
  };
}

/** A plain number without needless zeros. */
export const trimmed = (value: number): string => String(Number(value.toFixed(7)));
