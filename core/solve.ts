import { type Combination, combinations } from "./choosing/combinations.ts";
import { joinCoverings } from "./choosing/joinCoverings.ts";
import { type MirrorGroup, mirrorGroups } from "./choosing/mirrorGroups.ts";
import { panellingLimits, type WidthChoice, widthChoices, withoutFilm } from "./choosing/rollWidths.ts";
import { byCost } from "./costing/frontier.ts";
import { type Branch, LayoutBook } from "./layoutBook.ts";
import type { Covering, PanellingLimits } from "./model/covering.ts";
import type { Direction, Instance } from "./model/instance.ts";
import type { Layout } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import type { Result } from "./model/result.ts";
import type { Run } from "./model/run.ts";
import { coverParted, fewOf } from "./panelling/coverParted.ts";
import { coverFollower } from "./panelling/followers.ts";
import { type KnownSplits, knownSplits } from "./panelling/group.ts";
import type { ProgrammeEngine } from "./programme/programme.ts";
import { shortfalls } from "./shortfalls.ts";
import { type Ticks, ticksTo } from "./units/ticks.ts";

export interface SolveOptions {
  /** Any whole number; written into the plan. */
  readonly seed: number;
  /** An engine for programmes beyond the embedded one, loaded by the host. */
  readonly engine?: ProgrammeEngine;
}

/** At most this many times is a layout's combination changed in search of a cheaper one. */
const MOST_CHANGES = 40;
/** Coverings of a followed group that are taken up: each is worked out for what follows it too. */
const MOST_FOLLOWED = 6;
/** Steps of the search for cut patterns, where a layout is laid anew. */
const PATTERN_STEPS = 60;
/** The ways in which a layout is laid anew, with what its id says of them. */
const layings = [
  ["crosscut", "patterns"],
  ["free", "free"],
] as const;
/** How a layout is laid that is to come soon. */
const quickly = { nesting: "crosscut", patternSteps: 0 } as const;

/**
 * Plans a job: splits its elevations into panels, lays them on rolls, and compares the layouts that come of each roll
 * width, direction and way of choosing seams.
 *
 * @param run reports each step and each better plan; when `run.stop()` turns true the best so far is the answer; a limit
 * of `run.work` counts layouts made, so that the same limit gives the same plan on any machine
 * @returns a plan that has passed the verifier; or the reasons why none exists; or "stopped" when there was no time for
 * one layout
 * @throws Error when a layout made here breaks a rule of the contract: a fault of this program, never of the job
 */
export function solve(instance: Instance, options: SolveOptions, run: Run): Result {
  if (instance.elevations.length === 0 && instance.pieces.length === 0) {
    return { status: "noPlan", reasons: [nothingToMake] };
  }
  return new Search(instance, options, run).result();
}

const nothingToMake: Problem = {
  path: "elevations",
  value: [],
  why: "There is nothing to make: the job has no elevations and no pieces",
  mend: "Add an elevation, or a loose piece",
};

class Search {
  private readonly instance: Instance;
  private readonly run: Run;
  private readonly book: LayoutBook;
  private readonly groups: readonly MirrorGroup[];
  /** By group, what panelling worked out for other widths and directions. */
  private readonly known: ReadonlyMap<MirrorGroup, KnownSplits>;
  private readonly reasons: Problem[] = [];
  /** What to know of how the search was made. */
  private readonly searchWarnings = new Set<string>();
  /** By roll width, what stood in the way of a plan; a warning of every layout as long as that width has none. */
  private readonly widthWarnings = new Map<Ticks, string>();

  constructor(instance: Instance, options: SolveOptions, run: Run) {
    this.instance = instance;
    this.run = run;
    this.groups = mirrorGroups(instance.elevations);
    this.known = new Map(this.groups.map((group) => [group, knownSplits()]));
    this.book = new LayoutBook(instance, this.groups, options, run);
    this.book.warnings = () => [
      ...[...this.widthWarnings].flatMap(([width, why]) => (this.isPlanned(width) ? [] : [why])),
      ...this.searchWarnings,
    ];
  }

  result(): Result {
    const branches = this.branches();
    if (this.book.entries.length > 0) this.book.shortfalls = shortfalls(this.instance, this.book.plan(), this.run);
    for (const [i, branch] of this.cheapestFirst(branches).entries()) {
      this.layOutEach(branch, combinations(branch.groups));
      if (i === 0) this.sharpen("chosen");
    }
    for (const { rollWidth } of new Set(branches.map(({ choice }) => choice))) this.improve(rollWidth);
    this.layAnew();
    this.sharpen("chosen");
    this.sharpen("all");
    if (this.book.entries.length > 0) return { status: "planned", plan: this.book.finalPlan() };
    if (this.over()) return { status: "stopped" };
    return { status: "noPlan", reasons: distinct(this.reasons) };
  }

  /** Covers every group on every width; the first layout of each is made at once, so that there is soon one to see. */
  private branches(): Branch[] {
    const branches: Branch[] = [];
    const choices = widthChoices(this.instance);
    const directions = this.directions();
    const of = choices.length * directions.length;
    this.layOutFirst(choices, directions[0] as Direction | null);
    for (const choice of choices) {
      const before = branches.length;
      const reasons: Problem[] = [];
      for (const preferred of directions) {
        if (this.over()) return branches;
        const branch = this.cover(choice, preferred, reasons);
        this.run.report({ kind: "step", done: this.book.made, of, what: this.inWords(choice, preferred) });
        if (branch === null) continue;
        branches.push(branch);
        this.layOutEach(branch, combinations(branch.groups).slice(0, 1));
      }
      if (branches.length === before) this.noteWidth(choice, reasons);
    }
    return branches;
  }

  /** Whichever is better last: by then both directions are worked out, and most often the first is the quickest. */
  private directions(): (Direction | null)[] {
    const { elevations } = this.instance;
    const open = elevations.some(({ sections }) => sections.some(({ direction }) => direction === "either"));
    return open ? ["horizontal", "vertical", null] : [null];
  }

  /** One layout without fills, on the first width that has one, so that there is soon something to see. */
  private layOutFirst(choices: readonly WidthChoice[], preferred: Direction | null): void {
    if (this.instance.elevations.every(({ fill }) => fill.length === 0)) return;
    for (const choice of choices) {
      if (this.over()) return;
      const branch = this.cover(choice, preferred, [], true);
      if (branch === null) continue;
      this.layOutEach(branch, combinations(branch.groups).slice(0, 1));
      if (this.book.entries.length > 0) return;
    }
  }

  private cover(
    choice: WidthChoice,
    preferred: Direction | null,
    reasons: Problem[],
    withoutFills = false,
  ): Branch | null {
    const missing = withoutFilm(this.instance, choice);
    if (missing.length > 0) {
      reasons.push(...missing);
      return null;
    }
    const limits = { ...panellingLimits(this.instance, choice, preferred), withoutFills };
    const groups: (readonly Covering[])[] = [];
    const led = this.groups.filter(({ follows }) => follows === null);
    for (const group of led) {
      const covered = coverParted(this.instance, group.source, group.mirrors, limits, this.run, this.known.get(group));
      if ("reasons" in covered) {
        reasons.push(...covered.reasons);
        continue;
      }
      for (const warning of covered.warnings) this.searchWarnings.add(warning);
      const failures: Problem[] = [];
      const joined: Covering[] = [];
      for (const covering of this.isFollowed(group) ? fewOf(covered.coverings, MOST_FOLLOWED) : covered.coverings) {
        if (joined.length > 0 && (withoutFills || this.run.stop())) break;
        joined.push(...this.withFollowers(group, covering, limits, failures));
      }
      if (joined.length > 0) groups.push(joined);
      else reasons.push(...failures);
    }
    return groups.length === led.length ? { choice, preferred, groups } : null;
  }

  private isFollowed({ source }: MirrorGroup): boolean {
    return this.groups.some(({ follows }) => follows === source.id);
  }

  /** A covering with those of all that follow its elevations, as one; nothing where one of them can't be covered. */
  private withFollowers(
    leader: MirrorGroup,
    covering: Covering,
    limits: PanellingLimits,
    failures: Problem[],
  ): Covering[] {
    let joined = covering;
    // Groups stand behind those that they follow, so what a follower follows is covered by then.
    const led = new Set([leader.source.id]);
    for (const group of this.groups) {
      if (group.follows === null || !led.has(group.follows)) continue;
      const { source, mirrors } = group;
      const known = this.known.get(group);
      const followed = coverFollower(this.instance, source, mirrors, joined, limits, this.run, known);
      if ("reasons" in followed) {
        failures.push(...followed.reasons);
        return [];
      }
      led.add(source.id);
      joined = joinCoverings(joined, [followed.covering]);
    }
    return [joined];
  }

  private noteWidth(choice: WidthChoice, reasons: readonly Problem[]): void {
    this.reasons.push(...reasons);
    if (choice.rollWidth === null) return;
    const why = reasons[0]?.why ?? "no layout fits";
    this.widthWarnings.set(choice.rollWidth, `No plan on ${this.widthName(choice.rollWidth)} film: ${why}`);
  }

  /** Branches by the cost of the cheapest layout they have so far. */
  private cheapestFirst(branches: readonly Branch[]): Branch[] {
    const costs = new Map<Branch, number>();
    for (const { branch, layout } of this.book.entries) {
      costs.set(branch, Math.min(layout.totals.cost.total, costs.get(branch) ?? Infinity));
    }
    const cost = (branch: Branch) => costs.get(branch) ?? Number.MAX_VALUE;
    return [...branches].sort((a, b) => cost(a) - cost(b));
  }

  private layOutEach(branch: Branch, wanted: readonly Combination[]): void {
    const failures: Problem[] = [];
    for (const { policy, coverings } of wanted) {
      if (this.over()) return;
      const seams = coverings.reduce((total, { measures }) => total + measures.visibleSeams, 0);
      const name = policy === "between" ? `${seams}-seams` : policyNames[policy];
      const made = this.book.make({ ...quickly, id: `${this.label(branch)}-${name}`, branch, coverings });
      if (made !== null && "reasons" in made) failures.push(...made.reasons);
    }
    if (failures.length > 0 && !this.isPlanned(branch.choice.rollWidth)) this.noteWidth(branch.choice, failures);
    this.book.report();
  }

  /** Changes the covering of one group at a time for as long as that lowers the cost of the cheapest layout of a width. */
  private improve(rollWidth: Ticks | null): void {
    const onWidth = this.book.entries.filter(({ layout }) => layout.rollWidth === rollWidth);
    let best = onWidth.sort((a, b) => byCost(a.layout, b.layout))[0];
    let changes = 0;
    for (let better = true; better && best !== undefined; ) {
      better = false;
      const { branch } = best;
      for (const [group, coverings] of branch.groups.entries()) {
        for (const covering of coverings) {
          if (this.over() || changes >= MOST_CHANGES) return this.book.report();
          const changed: readonly Covering[] = best.coverings.with(group, covering);
          const made = this.book.make({ ...quickly, id: `${this.label(branch)}-improved`, branch, coverings: changed });
          if (made === null) continue;
          changes++;
          if ("entry" in made && byCost(made.entry.layout, best.layout) < 0) {
            best = made.entry;
            better = true;
          }
        }
      }
    }
    this.book.report();
  }

  /** Lays the cheapest layout of each width anew: by cut patterns, and free of cuts; kept where that saves. */
  private layAnew(): void {
    const cheapest = new Map<Ticks | null, Layout>();
    for (const { layout } of this.book.entries) {
      const known = cheapest.get(layout.rollWidth);
      if (known === undefined || byCost(layout, known) < 0) cheapest.set(layout.rollWidth, layout);
    }
    for (const layout of [...cheapest.values()].sort(byCost)) {
      const { branch, coverings } = this.book.entryOf(layout);
      let insteadOf = layout;
      for (const [nesting, name] of layings) {
        if (this.over()) return this.book.report();
        const id = `${layout.id}-${name}`;
        const begin = nesting === "free" ? { inCuts: insteadOf.rolls } : {};
        const laying = { nesting, patternSteps: PATTERN_STEPS, ...begin };
        const made = this.book.make({ id, branch, coverings, ...laying, insteadOf });
        if (made !== null && "entry" in made) insteadOf = made.entry.layout;
      }
      this.book.report();
    }
  }

  private sharpen(which: "chosen" | "all"): void {
    if (this.book.entries.length === 0) return;
    const { layouts, frontier, chosen } = this.book.plan();
    const first = layouts.filter(({ id }) => id === chosen);
    const next = layouts.filter(({ id }) => frontier.includes(id));
    this.book.sharpen(which === "chosen" ? first : [...first, ...next, ...layouts], chosen);
  }

  private isPlanned(rollWidth: Ticks | null): boolean {
    return this.book.entries.some(({ layout }) => layout.rollWidth === rollWidth);
  }

  private over(): boolean {
    return this.run.stop() || (this.run.work !== null && this.book.made >= this.run.work);
  }

  private widthName(width: number): string {
    return `${Number(ticksTo(width, this.instance.unit).toFixed(3))} ${this.instance.unit}`;
  }

  private inWords({ rollWidth }: WidthChoice, preferred: Direction | null): string {
    const film = rollWidth === null ? "Loose pieces" : `${this.widthName(rollWidth)} film`;
    return preferred === null ? film : `${film}, ${preferred}`;
  }

  private label({ choice, preferred }: Branch): string {
    const width = choice.rollWidth === null ? "pieces" : this.widthName(choice.rollWidth).replace(" ", "");
    return preferred === null ? width : `${width}-${preferred}`;
  }
}

/** How a policy reads in the id of a layout. */
const policyNames = {
  cheapest: "low-cost",
  leastFilm: "least-film",
  leastPrint: "least-print",
  fewestSeams: "fewest-seams",
  fewestOpen: "fewest-open",
  hiddenSeams: "hidden-seams",
} as const;

function distinct(problems: readonly Problem[]): Problem[] {
  const seen = new Map(problems.map((problem) => [`${problem.path} ${problem.why}`, problem]));
  return [...seen.values()];
}
