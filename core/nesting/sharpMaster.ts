import type { GroupRelaxation, RelaxedSplit, SectionRelaxation } from "../model/relaxation.ts";
import type { Programme, ProgrammeRow } from "../programme/programme.ts";
import {
  fixedMoney,
  inQuanta,
  type Lessons,
  type Point,
  QUANTA,
  type SharpFilm,
  type SharpQuestion,
} from "./sharpQuestion.ts";

/** More step widths than this are not told apart. */
const MOST_STEPS = 140;

/**
 * The linear programme over shares and the price of a seam. Variables: each film's parts, steps and own shares; the price;
 * a value for each loose piece, each section and each group. Its rows: full lines hold at most one; a loose piece is worth
 * no more than any of its shapes, a section no more than any of its splits, a group no more than any of its ways.
 */
export class SharpMaster {
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
          met.add(inQuanta(film, width, this.question.gap));
        }
      }
    }
    return [...met].filter((width) => width > 0 && width <= QUANTA).sort((a, b) => a - b);
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
          const width = Math.min(QUANTA, inQuanta(film, across, this.question.gap));
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
      for (const way of group.ways) {
        const { fixed, sections } = way;
        if (sections.some((section) => !valueAtSection.has(section))) continue;
        this.fixedRows.push({
          terms: [
            { variable: value, coefficient: 1 },
            ...sections.map((section) => ({ variable: valueAtSection.get(section) as number, coefficient: -1 })),
            { variable: this.seamAt, coefficient: -(fixed.visible * this.seamScale) / this.unit },
          ].filter(({ coefficient }) => coefficient !== 0),
          least: null,
          most: fixedMoney(this.question, way) / this.unit,
        });
      }
    }
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
        const width = Math.min(QUANTA, inQuanta(film, across, this.question.gap));
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
