import type { Instance, StockEntry } from "../model/instance.ts";
import type { Effort } from "../nesting/nestInCuts.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LoadChooser } from "./chooseLoads.ts";
import type { DraftCut } from "./handOut.ts";
import { roomInLoad, type Supply } from "./supply.ts";

/** A load not yet numbered. */
export interface DraftLoad {
  readonly stock: StockEntry | null;
  readonly width: Ticks;
  readonly used: Ticks;
  readonly cuts: readonly DraftCut[];
}

/** Loads of one film, and what they leave of it. */
export interface Draft {
  readonly loads: readonly DraftLoad[];
  readonly supply: Supply;
}

/** What the steps of laying one film share. */
export interface Bench {
  readonly instance: Instance;
  readonly effort: () => Effort;
  /** Which loads hold cuts, proven, where it is small enough to say. */
  readonly chooseLoads: LoadChooser;
}

/** Square ticks. */
export const filmArea = ({ loads }: Draft): number => loads.reduce((sum, { width, used }) => sum + width * used, 0);

const boughtArea = ({ loads }: Draft): number =>
  loads.reduce((sum, { stock, width, used }) => sum + (stock === null ? width * used : 0), 0);

/** Areas nearer than this are equal: beyond 2^53 square ticks sums of products are rounded. */
const SAME = 1e-9;

/** Least film first, of equals least of it bought, then fewest loads; the earlier of equals. */
export function bestDraft(drafts: readonly (Draft | null)[]): Draft | null {
  return drafts.reduce((best, draft) => {
    if (draft === null || best === null) return best ?? draft;
    const [a, b] = [filmArea(draft), filmArea(best)];
    if (Math.abs(a - b) > SAME * b) return a < b ? draft : best;
    const [c, d] = [boughtArea(draft), boughtArea(best)];
    if (Math.abs(c - d) > SAME * Math.max(b, 1)) return c < d ? draft : best;
    return draft.loads.length < best.loads.length ? draft : best;
  }, null);
}

/** How much longer a load may still grow. */
export function slackOf(instance: Instance, { film, stock }: Supply, load: DraftLoad): Ticks {
  const left = load.stock === null ? (film.rollLength ?? Infinity) - load.used : leftOf(stock, load.stock);
  const { leader, trailer } = instance.rules;
  return Math.min(left, roomInLoad(instance, film, Infinity) + leader + trailer - load.used);
}

const leftOf = (stock: Supply["stock"], wanted: StockEntry): Ticks =>
  stock.find(({ entry }) => entry === wanted)?.left ?? 0;

/** The load with a cut more, and the supply less by what that takes. */
export function withCut(
  instance: Instance,
  supply: Supply,
  load: DraftLoad,
  cut: DraftCut,
): { load: DraftLoad; supply: Supply } {
  const more = instance.rules.cutGap + cut.length;
  return {
    load: { ...load, used: load.used + more, cuts: [...load.cuts, cut] },
    supply:
      load.stock === null
        ? supply
        : {
            ...supply,
            stock: supply.stock.map((item) => (item.entry === load.stock ? { ...item, left: item.left - more } : item)),
          },
  };
}
