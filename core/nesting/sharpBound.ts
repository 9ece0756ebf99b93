import type {
  GroupRelaxation,
  RelaxedSplit,
  SectionRelaxation,
  SplitPrices,
  WayRelaxation,
} from "../model/relaxation.ts";
import type { Programme, ProgrammeEngine } from "../programme/programme.ts";
import {
  fullestLines,
  type KnownPiece,
  type LinePattern,
  type LineShares,
  readyMade,
  shareTable,
} from "./lineShares.ts";
import { SharpMaster } from "./sharpMaster.ts";
import {
  fixedMoney,
  inQuanta,
  type Lessons,
  type Point,
  QUANTA,
  type SharpFilm,
  type SharpQuestion,
} from "./sharpQuestion.ts";

export interface SharpEffort {
  readonly engine: ProgrammeEngine;
  /** Times that all sections may be asked. */
  readonly rounds: number;
  /** Whether sections may be looked at more closely. */
  readonly closely: boolean;
  readonly stop: () => boolean;
}

/** Step widths to begin with, evenly over the strip. */
const FIRST_STEPS = 20;
/** The search ends when less than this share of the bound is left to gain. */
const CLOSED = 2e-4;
/** While places of seams are taken together in long stretches, this share is near enough to look more closely. */
const NEARLY = 2e-3;
/** The search looks at the point nearest to the best so far that the lessons allow this share of what is left to gain. */
const LEVEL = 0.5;
/** Rounds without a better point after which the search looks more closely, or ends: many, and few once nearly closed. */
const MOST_IDLE = 12;
const FEW_IDLE = 3;

/**
 * A lower bound on film, print, panels and seams over all splits with at most so many visible seams, ends of loads left
 * out: money, or area where that is asked.
 *
 * For each film, whatever lies on one line across the roll has shares (`LineShares`) that add up to at most one. Grown by
 * the gap to the right and forward, the pieces of all loads are disjoint, so the lengths of the loads together are at
 * least the sum over the pieces of share x (length + gap). With a price for each visible seam on top (Lagrange) the bound
 * falls apart into one cheapest split a section. Shares and price that give the highest bound are found by cutting planes:
 * a linear programme over them, with a row for each split and each full line met so far, tells where to look next (Kelley
 * 1960, Journal of the Society for Industrial and Applied Mathematics 8(4), 703-712); looked at is the point nearest to
 * the best so far that still promises half of what is left to gain (the level method of Lemaréchal, Nemirovskii and
 * Nesterov 1995, Mathematical Programming 69, 111-147, with the sum of differences as distance). Every point looked at
 * bounds, so the search may be ended at any time.
 *
 * In the words of Dantzig and Wolfe it is the dual of choosing among all splits and all patterns of a line at once. It lets
 * the copies of an elevation be split in different ways, which no plan may: what that is worth stays between bound and plan.
 *
 * @param lessons of earlier questions of the same groups and films; added to
 * @returns money or square ticks; 0 when nothing could be told
 *
 * Time: rounds x (two programmes of about 150 variables + one path through each section). Same input, same output.
 */
export function sharpBound(question: SharpQuestion, lessons: Lessons, effort: SharpEffort): number {
  return new Search(question, lessons, effort).bound();
}

class Search {
  private readonly question: SharpQuestion;
  private readonly lessons: Lessons;
  private readonly effort: SharpEffort;
  private readonly ready = readyMade(QUANTA);
  private readonly pieces: readonly (readonly KnownPiece[])[];
  private readonly sections: readonly { readonly section: SectionRelaxation; readonly group: GroupRelaxation }[];
  /** Splits and lines met so far. */
  private learnt = 0;
  /** Money is counted in parts of this in the programmes. */
  private unit = 1;

  constructor(question: SharpQuestion, lessons: Lessons, effort: SharpEffort) {
    this.question = question;
    this.lessons = lessons;
    this.effort = effort;
    this.pieces = question.films.map((film) =>
      film.loose.map(({ count, shapes }) => ({
        count,
        widths: shapes.map(({ across }) => inQuanta(film, across, this.question.gap)),
      })),
    );
    this.sections = question.groups.flatMap((group) =>
      group.ways.flatMap(({ sections }) => sections.map((section) => ({ section, group }))),
    );
    for (const [f, film] of question.films.entries()) {
      if (lessons.breakpoints.has(film.id)) continue;
      const first = Array.from({ length: FIRST_STEPS - 1 }, (_, k) => Math.round(((k + 1) * QUANTA) / FIRST_STEPS));
      lessons.breakpoints.set(film.id, new Set([...first, ...(this.pieces[f] ?? []).flatMap(({ widths }) => widths)]));
      lessons.patterns.set(film.id, this.plainPatterns(first, this.pieces[f] ?? []));
    }
  }

  /** Lines full of one width or one piece: without them shares could grow without end. */
  private plainPatterns(widths: readonly number[], pieces: readonly KnownPiece[]): LinePattern[] {
    const ofSteps = [...widths, QUANTA].map((width) => ({
      steps: new Map([[width, Math.floor(QUANTA / width)]]),
      own: [],
    }));
    const ofPieces = pieces.flatMap(({ count, widths: across }, piece) =>
      across.map((width, shape) => ({
        steps: new Map<number, number>(),
        own: [{ piece, shape, times: Math.max(1, Math.min(count, Math.floor(QUANTA / width))) }],
      })),
    );
    return [...ofSteps, ...ofPieces];
  }

  bound(): number {
    let centre = this.plainPoint();
    let best = this.valueAt(centre);
    // Where nothing costs anything there is nothing to bound, and no unit to count in.
    if (!Number.isFinite(best) || best <= 0) return 0;
    this.unit = best;
    for (const point of this.lessons.last.values()) {
      const value = this.valueAt(point);
      if (value > best) [best, centre] = [value, point];
    }
    let coarse = true;
    let idle = 0;
    for (let round = 0; round < this.effort.rounds && !this.effort.stop(); round++) {
      const next = this.programmed();
      if (next === null) break;
      const top = next.value;
      const [learnt, before] = [this.learnt, best];
      if (top - best > CLOSED * best) {
        const near = this.nearby(centre, best + LEVEL * (top - best)) ?? next.point;
        for (const point of [near, next.point]) {
          // Where nothing new was met on the way, the programme's own point may be right.
          if (point === next.point && this.learnt > learnt && round % 4 !== 3) continue;
          const value = this.valueAt(point);
          if (value > best) [best, centre] = [value, point];
        }
        idle = best - before > CLOSED * (top - before) ? 0 : idle + 1;
        const goesOn =
          (this.learnt > learnt || best > before) && idle < (top - best > NEARLY * best ? MOST_IDLE : FEW_IDLE);
        if (goesOn && (!coarse || top - best > NEARLY * best)) continue;
      }
      idle = 0;
      if (!this.effort.closely || !this.refine(centre)) {
        if (!coarse || this.learnt === learnt) break;
        coarse = false;
      }
      best = Math.max(best, this.valueAt(centre));
    }
    this.lessons.last.set(this.question.fills, centre);
    return best;
  }

  /** Plain area, no price for seams. */
  private plainPoint(): Point {
    return {
      shares: this.question.films.map((film) => ({
        parts: this.ready.map((_, k) => (k === 0 ? 1 : 0)),
        steps: new Map(),
        own: film.loose.map(({ shapes }) => shapes.map(() => 0)),
      })),
      seamPrice: 0,
    };
  }

  /** The bound at a point, made feasible first; every section's cheapest split there is kept as a lesson. */
  private valueAt(point: Point): number {
    const { films, groups, seams } = this.question;
    const shares = point.shares.map((share, f) => this.feasible(share, f));
    const tables = shares.map((share) => shareTable(share, this.ready));
    const loose = films.reduce((sum, film, f) => sum + this.looseValue(film, shares[f] as LineShares), 0);
    let value = loose - point.seamPrice * seams;
    for (const group of groups) {
      const prices = this.pricesFor(group, tables, point.seamPrice);
      value += Math.min(Infinity, ...this.wayValues(group.ways, prices).values());
    }
    return value;
  }

  /**
   * By way, what it comes to; ways that can't be the least, since the sections of a deeper one ask enough already, are left
   * out. Every section's cheapest split is kept as a lesson.
   */
  private wayValues(ways: readonly WayRelaxation[], prices: SplitPrices): Map<WayRelaxation, number> {
    const values = new Map<WayRelaxation, number>();
    const ofSections = new Map<WayRelaxation, number>();
    let least = Infinity;
    for (const way of ways) {
      const fixed = fixedMoney(this.question, way) + prices.visible * way.fixed.visible;
      let deeper = way.deeper;
      while (deeper !== undefined && !ofSections.has(deeper)) deeper = deeper.deeper;
      if (deeper !== undefined && fixed + (ofSections.get(deeper) as number) >= least) continue;
      let sections = 0;
      for (const section of way.sections) {
        const splits = section.cheapest(prices);
        for (const split of splits) this.learn(section, split);
        sections += Math.min(Infinity, ...splits.map((split) => split.value));
      }
      ofSections.set(way, sections);
      values.set(way, fixed + sections);
      least = Math.min(least, fixed + sections);
    }
    return values;
  }

  private pricesFor({ copies }: GroupRelaxation, tables: readonly Float64Array[], seamPrice: number): SplitPrices {
    const { films, gap, panel, visibleLength, penalty } = this.question;
    const byWidth = new Float64Array(QUANTA + 1);
    let [area, all] = [0, 0];
    let strip = Infinity;
    for (const { id, strip: own } of films) if (copies.has(id)) strip = Math.min(strip, own);
    for (const [f, film] of films.entries()) {
      const count = copies.get(film.id) ?? 0;
      if (count === 0) continue;
      const table = tables[f] as Float64Array;
      // Where the films' strips differ, a quantum of the narrowest lies a little lower in the others.
      for (let i = 0; i < byWidth.length; i++) {
        const width = film.strip === strip ? i : Math.floor((i * strip) / film.strip);
        byWidth[i] = (byWidth[i] as number) + count * film.rate * (table[width] as number);
      }
      area += count * film.ink;
      all += count;
    }
    return {
      byWidth,
      quantum: strip / QUANTA,
      gap,
      area,
      panel: all * panel,
      visible: seamPrice,
      visibleLength,
      penalty,
    };
  }

  private looseValue(film: SharpFilm, { parts, own }: LineShares): number {
    const { gap } = this.question;
    let value = 0;
    for (const [p, { count, shapes, area, elsewhere }] of film.loose.entries()) {
      const flat = area === undefined ? [] : [(film.rate * (parts[0] as number) * area) / film.strip];
      const here = shapes.map(({ across, along }, s) => {
        const ready = this.readyShare(film, across, parts);
        return film.rate * (ready + (own[p]?.[s] ?? 0)) * (along + gap);
      });
      value += count * Math.min(elsewhere, ...flat, ...here);
    }
    return Number.isFinite(value) ? value : 0;
  }

  private readyShare(film: SharpFilm, across: number, parts: readonly number[]): number {
    const width = Math.min(QUANTA, inQuanta(film, across, this.question.gap));
    return parts.reduce((sum, part, k) => sum + part * (this.ready[k]?.[width] as number), 0);
  }

  /** The same shares, made smaller where a line could hold more than one in all. */
  private feasible(share: LineShares, f: number): LineShares {
    const whole = share.parts.reduce((sum, part) => sum + part, 0);
    const { most } = fullestLines(share, this.pieces[f] ?? [], QUANTA, Infinity);
    const factor = Math.max(1, whole + most);
    if (factor === 1) return share;
    return {
      parts: share.parts.map((part) => part / factor),
      steps: new Map([...share.steps].map(([width, rise]) => [width, rise / factor])),
      own: share.own.map((shapes) => shapes.map((value) => value / factor)),
    };
  }

  private learn(section: SectionRelaxation, split: RelaxedSplit): void {
    const known = this.lessons.splits.get(section) ?? [];
    const same = known.some(
      (other) =>
        other.visible === split.visible &&
        other.visibleLength === split.visibleLength &&
        other.penalties === split.penalties &&
        other.across.join() === split.across.join() &&
        other.along.join() === split.along.join(),
    );
    if (same) return;
    known.push(split);
    this.learnt++;
    this.lessons.splits.set(section, known);
  }

  /** Looks more closely at the sections whose answers carry the bound; true when any could be looked at more closely. */
  private refine(point: Point): boolean {
    let finer = false;
    const { films, groups } = this.question;
    const tables = point.shares.map((share, f) => shareTable(this.feasible(share, f), this.ready));
    for (const group of groups) {
      const prices = this.pricesFor(group, tables, point.seamPrice);
      const values = this.wayValues(group.ways, prices);
      const least = Math.min(...values.values());
      for (const [{ sections }, value] of values) {
        if (value > least * 1.01 + 1e-9) continue;
        for (const section of sections) {
          if (!section.refine()) continue;
          finer = true;
          // Its splits were told too cheaply.
          this.lessons.splits.delete(section);
        }
      }
    }
    return finer && films.length > 0;
  }

  /** The point that the programme over all lessons holds for best, and its value, which no point exceeds. */
  private programmed(): { point: Point; value: number } | null {
    const solved = this.solved(this.master(), (model) => model.programme());
    return solved === null ? null : { point: solved.point, value: -solved.objective * this.unit };
  }

  /** The point nearest to another for which the lessons allow a value. */
  private nearby(centre: Point, value: number): Point | null {
    return this.solved(this.master(), (model) => model.programmeNear(centre, value / this.unit))?.point ?? null;
  }

  private master(): SharpMaster {
    return new SharpMaster(this.question, this.sections, this.lessons, this.ready, this.unit, this.seamScale());
  }

  /** Solves a programme until no line holds more than one in all. */
  private solved(
    model: SharpMaster,
    ask: (model: SharpMaster) => Programme,
  ): { point: Point; objective: number } | null {
    for (let turn = 0; ; turn++) {
      const outcome = this.effort.engine(ask(model));
      if (outcome.status !== "optimal") return null;
      const point = model.pointOf(outcome.values);
      const full = this.question.films.map((film, f) => {
        const share = point.shares[f] as LineShares;
        const room = 1 - share.parts.reduce((sum, part) => sum + part, 0);
        const { patterns } = fullestLines(share, this.pieces[f] ?? [], QUANTA, room + 1e-5);
        this.lessons.patterns.get(film.id)?.push(...patterns);
        this.learnt += patterns.length;
        return patterns.length;
      });
      if (turn === MOST_TURNS || full.every((count) => count === 0)) return { point, objective: outcome.objective };
    }
  }

  private seamScale(): number {
    return this.unit / Math.max(1, this.question.seams);
  }
}

/** Times that lines are looked for before splits are asked again. */
const MOST_TURNS = 6;
