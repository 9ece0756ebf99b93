import type {
  GroupRelaxation,
  RelaxedSplit,
  SectionRelaxation,
  SplitPrices,
  WayRelaxation,
} from "../model/relaxation.ts";
import type { Programme, ProgrammeEngine, ProgrammeRow } from "../programme/programme.ts";
import {
  fullestLines,
  type KnownPiece,
  type LinePattern,
  type LineShares,
  readyMade,
  shareTable,
} from "./lineShares.ts";

/** A film that panels lie on, all on one width. Lengths in ticks, money per tick or square tick. */
export interface SharpFilm {
  readonly id: string;
  /** Money for each tick of length at full width. */
  readonly rate: number;
  readonly ink: number;
  /** Printable width and one gap. */
  readonly strip: number;
  readonly loose: readonly SharpPiece[];
}

export interface SharpPiece {
  readonly count: number;
  /** Shapes that fit the width. */
  readonly shapes: readonly { readonly across: number; readonly along: number }[];
  /** Given where only its outline counts, wherever it lies: square ticks. It then has no shapes. */
  readonly area?: number;
  /** Least money for its film when it lies on another width; Infinity where it can't. */
  readonly elsewhere: number;
}

export interface SharpQuestion {
  readonly groups: readonly GroupRelaxation[];
  readonly films: readonly SharpFilm[];
  readonly gap: number;
  /** Money per panel, per tick of visible seam, per avoided zone met. */
  readonly panel: number;
  readonly visibleLength: number;
  readonly penalty: number;
  /** What fills come to on their own film: as money, or as area alone. */
  readonly fills: "money" | "area";
  /** Most visible seams, all copies together. */
  readonly seams: number;
  /** Nothing is gained by a bound above this. */
  readonly enough: number;
}

/** What bounding one question taught, for the next question of the same groups: which splits and lines matter. */
export class Lessons {
  readonly splits = new Map<SectionRelaxation, RelaxedSplit[]>();
  readonly patterns = new Map<string, LinePattern[]>();
  readonly breakpoints = new Map<string, Set<number>>();
  /** Where the last answers to questions of money and of area were found, to begin the next search from. */
  readonly last = new Map<SharpQuestion["fills"], Point>();
}

export interface SharpEffort {
  readonly engine: ProgrammeEngine;
  /** Times that all sections may be asked. */
  readonly rounds: number;
  /** Whether sections may be looked at more closely. */
  readonly closely: boolean;
  readonly stop: () => boolean;
}

/** Widths are told apart in this many parts of the strip. */
const QUANTA = 1920;
/** Step widths to begin with, evenly over the strip. */
const FIRST_STEPS = 20;
/** More step widths than this are not told apart. */
const MOST_STEPS = 140;
/** The search ends when less than this share of the bound is left to gain. */
const CLOSED = 2e-4;
/** While places of seams are taken together in long stretches, this share is near enough to look more closely. */
const NEARLY = 2e-3;
/** The search looks at the point nearest to the best so far that the lessons allow this share of what is left to gain. */
const LEVEL = 0.5;
/** Rounds without a better point after which the search looks more closely, or ends: many, and few once nearly closed. */
const MOST_IDLE = 12;
const FEW_IDLE = 3;

export interface Point {
  readonly shares: readonly LineShares[];
  readonly seamPrice: number;
}

/**
 * A lower bound on film, print, panels and seams over all splits with at most so many visible seams, ends of loads left
 * out: money, or area where that is asked.
 *
 * For each film, whatever lies on one line across the roll has shares (`LineShares`) that add up to at most one. Grown by
 * the gap to the right and forward, the pieces of all loads are disjoint, so the lengths of the loads together are at
 * least the sum over the pieces of share x (length + gap). With a price for each visible seam on top (Lagrange) the bound
 * falls apart into one cheapest split a section. Shares and price that give the highest bound are found by cutting planes:
 * a linear programme over them, with a row for each split and each full line met so far, tells where to look next (Kelley
 * 1960, Journal of the Society for Industrial and Applied Mathematics 8(4), 703-712); looked at is the middle between that
 * and the best so far. Every point looked at bounds, so the search may be ended at any time.
 *
 * In the words of Dantzig and Wolfe it is the dual of choosing among all splits and all patterns of a line at once.
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
        widths: shapes.map(({ across }) => this.inQuanta(film, across)),
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
    if (!Number.isFinite(best)) return 0;
    this.unit = Math.max(best, 1e-9);
    for (const point of this.lessons.last.values()) {
      const value = this.valueAt(point);
      if (value > best) [best, centre] = [value, point];
    }
    let coarse = true;
    let idle = 0;
    for (let round = 0; round < this.effort.rounds && !this.effort.stop() && best < this.question.enough; round++) {
      const next = this.programmed();
      if (next === null) break;
      const top = next.value;
      const [learnt, before] = [this.learnt, best];
      if (top - best > CLOSED * best) {
        const near = this.nearby(centre, best + LEVEL * (top - best)) ?? next.point;
        for (const point of [near, ...(round % 4 === 3 ? [next.point] : [])]) {
          const value = this.valueAt(point);
          if (value > best) [best, centre] = [value, point];
        }
        idle = best - before > CLOSED * (top - before) ? 0 : idle + 1;
        const goesOn = this.learnt > learnt && idle < (top - best > NEARLY * best ? MOST_IDLE : FEW_IDLE);
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

  private inQuanta({ strip }: SharpFilm, across: number): number {
    return Math.floor(((across + this.question.gap) * QUANTA) / strip + 1e-9);
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
      const fixed = this.fixedMoney(way.fixed) + prices.visible * way.fixed.visible;
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

  private fixedMoney(fixed: WayRelaxation["fixed"]): number {
    const { panel, visibleLength, fills } = this.question;
    const ofFills = fills === "money" ? fixed.fillMoney : fixed.fillArea;
    return panel * fixed.panels + visibleLength * fixed.visibleLength + ofFills;
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
    const width = Math.min(QUANTA, this.inQuanta(film, across));
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

  private master(): Master {
    return new Master(this.question, this.sections, this.lessons, this.ready, this.unit, this.seamScale());
  }

  /** Solves a programme until no line holds more than one in all. */
  private solved(model: Master, ask: (model: Master) => Programme): { point: Point; objective: number } | null {
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

/** What each step adds to the one below it; what an engine lets fall by its tolerance does not fall. */
function rises(levels: ReadonlyMap<number, number>, at: (variable: number) => number): Map<number, number> {
  let reached = 0;
  const steps = new Map<number, number>();
  for (const [width, variable] of levels) {
    const level = at(variable);
    if (level <= reached) continue;
    steps.set(width, level - reached);
    reached = level;
  }
  return steps;
}

/** Times that lines are looked for before splits are asked again. */
const MOST_TURNS = 6;

/**
 * The linear programme over shares and the price of a seam. Variables: each film's parts, steps and own shares; the price;
 * a value for each loose piece, each section and each group. Its rows: full lines hold at most one; a loose piece is worth
 * no more than any of its shapes, a section no more than any of its splits, a group no more than any of its ways.
 */
class Master {
  private readonly question: SharpQuestion;
  private readonly lessons: Lessons;
  private readonly sections: readonly { readonly section: SectionRelaxation; readonly group: GroupRelaxation }[];
  private readonly ready: readonly Float64Array[];
  private readonly unit: number;
  private readonly seamScale: number;
  private readonly stepsOf: readonly (readonly number[])[];
  private readonly costs: number[] = [];
  private readonly fixedRows: ProgrammeRow[] = [];
  private readonly partAt: number[][] = [];
  private readonly stepAt: Map<number, number>[] = [];
  private readonly ownAt: number[][][] = [];
  private readonly seamAt: number;

  constructor(
    question: SharpQuestion,
    sections: readonly { readonly section: SectionRelaxation; readonly group: GroupRelaxation }[],
    lessons: Lessons,
    ready: readonly Float64Array[],
    unit: number,
    seamScale: number,
  ) {
    this.question = question;
    this.sections = sections;
    this.lessons = lessons;
    this.ready = ready;
    this.unit = unit;
    this.seamScale = seamScale;
    this.stepsOf = question.films.map((film) => this.stepWidths(film));
    this.seamAt = this.variable((question.seams * seamScale) / unit);
    for (const [f, film] of question.films.entries()) {
      this.partAt.push(ready.map(() => this.variable(0)));
      this.stepAt.push(new Map((this.stepsOf[f] ?? []).map((width) => [width, this.variable(0)])));
      this.ownAt.push(film.loose.map(({ shapes }) => shapes.map(() => this.variable(0))));
    }
    // Any finite limit does: without one a price could grow without end before a split with fewer seams is met.
    this.fixedRows.push({ terms: [{ variable: this.seamAt, coefficient: 1 }], least: null, most: 1e3 });
    this.addLoose();
    this.addSections();
  }

  programme(): Programme {
    return {
      variables: this.costs.map((cost) => ({ cost, whole: false })),
      rows: [...this.lineRows(), ...this.fixedRows],
    };
  }

  /** The same rows, the point nearest to another by the sum of differences, with at least a value. */
  programmeNear(centre: Point, value: number): Programme {
    const at = this.placesOf(centre);
    const variables = this.costs.map(() => ({ cost: 0, whole: false }));
    const worth = this.costs.flatMap((cost, variable) => (cost === 0 ? [] : [{ variable, coefficient: -cost }]));
    const rows: ProgrammeRow[] = [...this.lineRows(), ...this.fixedRows, { terms: worth, least: value, most: null }];
    for (const [variable, place] of at) {
      const difference = variables.length;
      variables.push({ cost: 1, whole: false });
      const row = (coefficient: number, most: number): ProgrammeRow => ({
        terms: [
          { variable, coefficient },
          { variable: difference, coefficient: -1 },
        ],
        least: null,
        most,
      });
      rows.push(row(1, place), row(-1, -place));
    }
    return { variables, rows };
  }

  /** By variable of shares and price: where a point lies. */
  private placesOf({ shares, seamPrice }: Point): Map<number, number> {
    const places = new Map([[this.seamAt, seamPrice / this.seamScale]]);
    for (const [f, share] of shares.entries()) {
      for (const [k, variable] of (this.partAt[f] as number[]).entries()) places.set(variable, share.parts[k] ?? 0);
      const rises = [...share.steps].sort(([a], [b]) => a - b);
      let [next, risen] = [0, 0];
      for (const [width, variable] of this.stepAt[f] as Map<number, number>) {
        for (; next < rises.length && (rises[next]?.[0] as number) <= width; next++)
          risen += rises[next]?.[1] as number;
        places.set(variable, risen);
      }
      for (const [p, shapes] of (this.ownAt[f] as number[][]).entries()) {
        for (const [s, variable] of shapes.entries()) places.set(variable, share.own[p]?.[s] ?? 0);
      }
    }
    return places;
  }

  pointOf(values: readonly number[]): Point {
    const at = (variable: number) => Math.max(0, values[variable] ?? 0);
    return {
      seamPrice: at(this.seamAt) * this.seamScale,
      shares: this.question.films.map((_, f) => ({
        parts: (this.partAt[f] as number[]).map(at),
        steps: rises(this.stepAt[f] as Map<number, number>, at),
        own: (this.ownAt[f] as number[][]).map((shapes) => shapes.map(at)),
      })),
    };
  }

  private variable(cost: number): number {
    this.costs.push(cost);
    return this.costs.length - 1;
  }

  /** Widths met in the splits first, as long as there is room, then those of the beginning. */
  private stepWidths(film: SharpFilm): number[] {
    const met = new Set(this.lessons.breakpoints.get(film.id));
    for (const { section, group } of this.sections) {
      if (!group.copies.has(film.id)) continue;
      for (const { across } of this.lessons.splits.get(section) ?? []) {
        for (const width of across) {
          if (met.size >= MOST_STEPS) break;
          met.add(this.widthOf(film, width));
        }
      }
    }
    return [...met].filter((width) => width > 0 && width <= QUANTA).sort((a, b) => a - b);
  }

  private widthOf({ strip }: SharpFilm, across: number): number {
    return Math.floor(((across + this.question.gap) * QUANTA) / strip + 1e-9);
  }

  private addLoose(): void {
    const { films, gap } = this.question;
    for (const [f, film] of films.entries()) {
      for (const [p, { count, shapes, area, elsewhere }] of film.loose.entries()) {
        if (shapes.length === 0 && area === undefined && !Number.isFinite(elsewhere)) continue;
        const value = this.variable(-count);
        if (area !== undefined) {
          const flat = {
            variable: this.partAt[f]?.[0] as number,
            coefficient: -(film.rate * area) / film.strip / this.unit,
          };
          this.fixedRows.push({ terms: [{ variable: value, coefficient: 1 }, flat], least: null, most: 0 });
        }
        if (Number.isFinite(elsewhere)) {
          this.fixedRows.push({
            terms: [{ variable: value, coefficient: 1 }],
            least: null,
            most: elsewhere / this.unit,
          });
        }
        for (const [s, { across, along }] of shapes.entries()) {
          const length = (film.rate * (along + gap)) / this.unit;
          const width = Math.min(QUANTA, this.widthOf(film, across));
          const terms = [
            { variable: value, coefficient: 1 },
            { variable: this.ownAt[f]?.[p]?.[s] as number, coefficient: -length },
            ...(this.partAt[f] as number[]).map((variable, k) => ({
              variable,
              coefficient: -length * (this.ready[k]?.[width] as number),
            })),
          ];
          this.fixedRows.push({ terms: terms.filter(({ coefficient }) => coefficient !== 0), least: null, most: 0 });
        }
      }
    }
  }

  private addSections(): void {
    const valueAtSection = new Map<SectionRelaxation, number>();
    for (const { section, group } of this.sections) {
      const splits = this.lessons.splits.get(section);
      if (splits === undefined) continue;
      const value = this.variable(0);
      valueAtSection.set(section, value);
      for (const split of splits) this.fixedRows.push(this.splitRow(value, group, split));
    }
    for (const group of this.question.groups) {
      const value = this.variable(-1);
      for (const { fixed, sections } of group.ways) {
        if (sections.some((section) => !valueAtSection.has(section))) continue;
        this.fixedRows.push({
          terms: [
            { variable: value, coefficient: 1 },
            ...sections.map((section) => ({ variable: valueAtSection.get(section) as number, coefficient: -1 })),
            { variable: this.seamAt, coefficient: -(fixed.visible * this.seamScale) / this.unit },
          ].filter(({ coefficient }) => coefficient !== 0),
          least: null,
          most: this.fixedMoney(fixed) / this.unit,
        });
      }
    }
  }

  private fixedMoney(fixed: WayRelaxation["fixed"]): number {
    const { panel, visibleLength, fills } = this.question;
    const ofFills = fills === "money" ? fixed.fillMoney : fixed.fillArea;
    return panel * fixed.panels + visibleLength * fixed.visibleLength + ofFills;
  }

  private splitRow(value: number, { copies }: GroupRelaxation, split: RelaxedSplit): ProgrammeRow {
    const { films, gap, panel, visibleLength, penalty } = this.question;
    const coefficients = new Map<number, number>([[value, 1]]);
    const add = (variable: number, amount: number) => {
      if (amount !== 0) coefficients.set(variable, (coefficients.get(variable) ?? 0) - amount);
    };
    let money = visibleLength * split.visibleLength + penalty * split.penalties;
    for (const [f, film] of films.entries()) {
      const count = copies.get(film.id) ?? 0;
      if (count === 0) continue;
      for (const [i, across] of split.across.entries()) {
        const along = split.along[i] as number;
        money += count * (film.ink * across * along + panel);
        const length = (count * film.rate * (along + gap)) / this.unit;
        const width = Math.min(QUANTA, this.widthOf(film, across));
        for (const [k, variable] of (this.partAt[f] as number[]).entries()) {
          add(variable, length * (this.ready[k]?.[width] as number));
        }
        const step = this.stepUnder(f, width);
        if (step !== null) add(step, length);
      }
    }
    add(this.seamAt, (split.visible * this.seamScale) / this.unit);
    return {
      terms: [...coefficients].map(([variable, coefficient]) => ({ variable, coefficient })),
      least: null,
      most: money / this.unit,
    };
  }

  /** The variable of the widest step that a width reaches. */
  private stepUnder(f: number, width: number): number | null {
    const widths = this.stepsOf[f] as readonly number[];
    let [low, high] = [0, widths.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((widths[middle] as number) <= width) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? null : (this.stepAt[f]?.get(widths[low - 1] as number) as number);
  }

  private lineRows(): ProgrammeRow[] {
    return this.question.films.flatMap((film, f) => {
      const whole = (this.partAt[f] as number[]).map((variable) => ({ variable, coefficient: 1 }));
      const rows: ProgrammeRow[] = [{ terms: whole, least: null, most: 1 }];
      const steps = [...(this.stepAt[f] as Map<number, number>).values()];
      for (let i = 0; i + 1 < steps.length; i++) {
        const terms = [
          { variable: steps[i] as number, coefficient: 1 },
          { variable: steps[i + 1] as number, coefficient: -1 },
        ];
        rows.push({ terms, least: null, most: 0 });
      }
      for (const { steps, own } of this.lessons.patterns.get(film.id) ?? []) {
        const coefficients = new Map<number, number>();
        for (const [width, times] of steps) {
          const variable = this.stepUnder(f, width);
          if (variable !== null) coefficients.set(variable, (coefficients.get(variable) ?? 0) + times);
        }
        for (const { piece, shape, times } of own) {
          const variable = this.ownAt[f]?.[piece]?.[shape];
          if (variable !== undefined) coefficients.set(variable, (coefficients.get(variable) ?? 0) + times);
        }
        const terms = [...coefficients].map(([variable, coefficient]) => ({ variable, coefficient }));
        rows.push({ terms: [...whole, ...terms], least: null, most: 1 });
      }
      return rows;
    });
  }
}
