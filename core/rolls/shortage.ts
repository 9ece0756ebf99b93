import type { Instance } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";
import { printableWidth } from "../model/printableWidth.ts";
import type { Problem } from "../model/problem.ts";
import { shortestAlong } from "../nesting/sizes.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LotGroup } from "./batches.ts";
import type { Bench } from "./draft.ts";
import { lotsOf, nestedLength } from "./layFilm.ts";
import { fitsAcross, type Stack, sizesOf } from "./stacks.ts";
import { lotOf, roomInLoad, type Supply, widthsToBeHad } from "./supply.ts";
import { inWords, listed } from "./words.ts";

/** Length that one load of this width can hold at most after leader and trailer; 0 when there is no such film. */
export function longestCut(instance: Instance, { film, stock, newRolls }: Supply, width: Ticks): Ticks {
  const lengths = stock.filter(({ entry }) => entry.width === width).map(({ left }) => left);
  if (newRolls > 0 && film.rollWidths.includes(width)) lengths.push(film.rollLength ?? Infinity);
  return Math.max(0, ...lengths.map((length) => roomInLoad(instance, film, length)));
}

/** Why single panels can't lie on this width; empty when each of them can. */
export function panelsThatFit(instance: Instance, supply: Supply, width: Ticks, panels: readonly Panel[]): Problem[] {
  const { film } = supply;
  const unit = instance.unit;
  const [printable, longest] = [printableWidth(film, width), longestCut(instance, supply, width)];
  if (longest === 0 && panels.length > 0) {
    return [
      {
        path: pathOfFilm(instance, supply),
        value: film.id,
        why: `No load of film ${film.id} ${inWords(width, unit)} wide can be had: none in stock leaves anything after leader and trailer, and no new roll may be bought`,
        mend: `Add a roll ${inWords(width, unit)} wide to the stock, or allow new rolls of ${film.id}`,
      },
    ];
  }
  return panels.flatMap((panel): Problem[] => {
    const at = instance.elevations.findIndex(({ id }) => id === panel.elevation);
    const problems: Problem[] = [];
    if (panel.across > printable) {
      problems.push({
        path: `elevations[${at}]`,
        value: panel.id,
        why: `Panel ${panel.id} is ${inWords(panel.across, unit)} across; film ${film.id} prints ${inWords(printable, unit)} on a roll ${inWords(width, unit)} wide`,
        mend: "Take a wider roll, or split into narrower panels",
      });
    }
    if (panel.along > longest) {
      problems.push({
        path: `elevations[${at}]`,
        value: panel.id,
        why: `Panel ${panel.id} is ${inWords(panel.along, unit)} long; a load of film ${film.id} ${inWords(width, unit)} wide holds ${inWords(longest, unit)} after leader and trailer`,
        mend: "Run the panels in the other direction, or take a longer roll",
      });
    }
    return problems;
  });
}

/** Why single loose pieces fit no roll at all; empty when each of them fits one. */
export function piecesThatFit(instance: Instance, supply: Supply, stacks: readonly Stack[]): Problem[] {
  const { film } = supply;
  const unit = instance.unit;
  const widths = widthsToBeHad(supply);
  return stacks.flatMap((stack): Problem[] => {
    const able = widths.filter((width) => fitsAcross(stack, printableWidth(film, width)));
    const ids = [...new Set(stack.items.map(({ id }) => id))];
    const at = instance.pieces.findIndex(({ id }) => id === ids[0]);
    const name = ids.length === 1 ? `Piece ${ids[0]} is` : `Pieces ${listed(ids)} are`;
    const least = Math.min(...stack.shapes.map(({ across }) => across));
    if (able.length === 0) {
      const widest = Math.max(0, ...widths.map((width) => printableWidth(film, width)));
      const had = widths.length === 0 ? "none can be had" : `at most ${inWords(widest, unit)} can be printed`;
      return [
        {
          path: `pieces[${at}].outline`,
          value: ids[0],
          why: `${name} ${inWords(least, unit)} across; of film ${film.id} ${had}, and a loose piece is never split`,
          mend: "Take a wider film, allow a quarter turn, or draw the piece as two",
        },
      ];
    }
    const shortest = (width: Ticks) =>
      Math.min(...sizesOf([stack], printableWidth(film, width), true).map(shortestAlong));
    if (able.some((width) => shortest(width) <= longestCut(instance, supply, width))) return [];
    const longest = Math.max(...able.map((width) => longestCut(instance, supply, width)));
    return [
      {
        path: `pieces[${at}].outline`,
        value: ids[0],
        why: `${name} ${inWords(Math.min(...able.map(shortest)), unit)} long; a load of film ${film.id} wide enough for it holds ${inWords(longest, unit)} after leader and trailer`,
        mend: "Take a longer roll, allow a quarter turn, or draw the piece as two",
      },
    ];
  });
}

/** Why pieces that fit one by one do not fit all together. */
export function shortOfFilm(bench: Bench, supply: Supply, width: Ticks | null, groups: readonly LotGroup[]): Problem {
  const { instance } = bench;
  const { film } = supply;
  const { leader, trailer } = instance.rules;
  const unit = instance.unit;
  const path = pathOfFilm(instance, supply);
  const wide = width === null ? "" : ` ${inWords(width, unit)} wide`;
  const bought = film.newRolls === 0 ? "no new roll may be bought" : `at most ${film.newRolls} new rolls may be bought`;
  const mend = "Allow more new rolls, add stock, or take another roll width";
  if (width === null || groups.length === 0) {
    return {
      path,
      value: film.id,
      why: `The loose pieces of film ${film.id} do not all fit on the rolls that can be had, and ${bought}`,
      mend,
    };
  }
  const needed = nestedLength(bench, supply, width, groups) + leader + trailer;
  const lots = lotsOf(bench, supply, width);
  const left = lots.reduce((sum, { length }) => sum + length, 0);
  if (needed > left) {
    return {
      path,
      value: film.id,
      why: `Film ${film.id}${wide} has ${inWords(left, unit)} left but ${inWords(needed, unit)} are needed, and ${bought}`,
      mend,
    };
  }
  const [longest] = lots;
  const byCopy = groups
    .map((group) => ({
      name: group.name,
      length: nestedLength(bench, supply, width, [group], { parts: [{ first: 1, count: 1 }] }) + leader + trailer,
    }))
    .sort((a, b) => b.length - a.length);
  const worst = byCopy[0] as (typeof byCopy)[number];
  const lotName = longest === undefined ? "no lot" : longest.lot === lotOf(null) ? "new rolls" : longest.lot;
  const how = groups.some(({ bound }) => bound) ? " on one lot" : "";
  return {
    path,
    value: film.id,
    why: `Film ${film.id}${wide} has ${inWords(left, unit)} left in ${lots.length} lots, but no way was found to lay every copy${how}: one copy of ${worst.name} takes ${inWords(worst.length, unit)}, the most of one lot is ${inWords(longest?.length ?? 0, unit)} (${lotName}), and ${bought}`,
    mend: "Allow new rolls, add a longer roll, or let one copy take film of several lots (rules.oneLot, sameLot)",
  };
}

const pathOfFilm = ({ films }: Instance, { film }: Supply): string =>
  `films[${films.findIndex(({ id }) => id === film.id)}]`;
