import type { Film, Instance } from "../model/instance.ts";
import type { Load, PlacedPiece } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { cutLengths } from "./cutLengths.ts";
import type { Draft, DraftLoad } from "./draft.ts";
import { turnedOver } from "./heads.ts";
import { compareRanks } from "./neighbours.ts";
import { lotOf } from "./supply.ts";

/**
 * Drafts as the plan holds them.
 *
 * @param drafts one a film, in the job's order
 * @returns loads numbered from "1", film by film, lots together, neighbours next to one another; each with what it and
 *   those before it leave on its roll
 */
export function finishedLoads(
  instance: Instance,
  drafts: readonly { readonly film: Film; readonly draft: Draft }[],
): Load[] {
  const loads = drafts.flatMap(({ film, draft }) => ordered(draft.loads).map((load) => ({ film, load })));
  return withRests(
    instance,
    loads.map(({ film, load }, index) => finished(instance, film, load, String(index + 1))),
  );
}

/** Loads of one width and lot together, in the order of what is on them. */
function ordered(loads: readonly DraftLoad[]): DraftLoad[] {
  const sorted = loads.map((load) => ({
    ...load,
    cuts: [...load.cuts].sort((a, b) => compareRanks(a.rank, b.rank) || b.length - a.length),
  }));
  const first = ({ cuts }: DraftLoad) => (cuts[0] as DraftLoad["cuts"][number]).rank;
  sorted.sort((a, b) => compareRanks(first(a), first(b)));
  const places = new Map<string, number>();
  const key = ({ width, stock }: DraftLoad) => `${width} ${lotOf(stock)}`;
  for (const load of sorted) if (!places.has(key(load))) places.set(key(load), places.size);
  return sorted.sort((a, b) => (places.get(key(a)) as number) - (places.get(key(b)) as number));
}

/** Each load with what it and those before it leave on its roll, and whether that is worth keeping. */
function withRests({ stock, films, rules: { keepLength } }: Instance, loads: readonly Load[]): Load[] {
  const left = new Map<string, Ticks>(stock.map(({ id, length }) => [id, length]));
  const bought = new Map(films.map(({ id, rollLength }) => [id, rollLength]));
  return loads.map((load) => {
    const before = load.stock === null ? (bought.get(load.film) ?? null) : (left.get(load.stock) as Ticks);
    const leaves = before === null ? null : before - load.used;
    if (load.stock !== null) left.set(load.stock, leaves as Ticks);
    return { ...load, leaves, ...(keepLength === null ? {} : { keep: leaves === null || leaves >= keepLength }) };
  });
}

function finished({ rules }: Instance, film: Film, { stock, width, cuts }: DraftLoad, id: string): Load {
  const { starts, used } = cutLengths(
    rules,
    cuts.map(({ length }) => length),
  );
  return {
    id,
    stock: stock?.id ?? null,
    film: film.id,
    lot: stock?.lot ?? null,
    width,
    used,
    cuts: cuts.map(({ length, pieces }, i) => ({
      start: starts[i] as Ticks,
      length,
      pieces: pieces
        .map(
          ({ item, shape, x, y }): PlacedPiece => ({
            id: item.id,
            copy: item.copy,
            x: film.edgeMargin + x,
            y,
            across: shape.across,
            along: shape.along,
            turn: item.headToFoot ? turnedOver(shape.turn) : shape.turn,
          }),
        )
        .sort((a, b) => a.x - b.x || a.y - b.y),
    })),
  };
}
