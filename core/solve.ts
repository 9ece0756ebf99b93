import type { BoundKey } from "./bounds.ts";
import { type Combination, combinations } from "./choosing/combinations.ts";
import { type MirrorGroup, mirrorGroups } from "./choosing/mirrorGroups.ts";
import { panellingLimits, type WidthChoice, widthChoices, withoutFilm } from "./choosing/rollWidths.ts";
import { byCost, frontierOf, withoutNearTies } from "./costing/frontier.ts";
import { worthComparing } from "./costing/worthComparing.ts";
import { layOut, type Measuring, measuringOf } from "./layOut.ts";
import type { Covering } from "./model/covering.ts";
import type { Direction, Instance } from "./model/instance.ts";
import { type Layout, type Plan, seamCount } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import type { Result } from "./model/result.ts";
import type { Run } from "./model/run.ts";
import { coverGroup, type KnownSplits, knownSplits } from "./panelling/coverGroup.ts";
import type { ProgrammeEngine } from "./programme/programme.ts";
import { type Ticks, ticksTo } from "./units/ticks.ts";
import { verifyLayout, verifyPlan } from "./verifying/verifyPlan.ts";

export interface SolveOptions {
  /** Any whole number; written into the plan. */
  readonly seed: number;
  /** An engine for programmes beyond the embedded one, loaded by the host. */
  readonly engine?: ProgrammeEngine;
}

/** At most this many times is a layout's combination changed in search of a cheaper one. */
const MOST_CHANGES = 40;
/** Rounds in which a sharp bound may be looked for. */
const ROUNDS_OF_BOUND = 40;

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

/** One roll width and one direction for the sections that leave it open, with every covering found for each group. */
interface Branch {
  readonly choice: WidthChoice;
  readonly preferred: Direction | null;
  readonly groups: readonly (readonly Covering[])[];
}

class Search {
  private readonly instance: Instance;
  private readonly options: SolveOptions;
  private readonly run: Run;
  private readonly measuring: Measuring;
  private readonly groups: readonly MirrorGroup[];
  /** By group, what panelling worked out for other widths and directions. */
  private readonly known: readonly KnownSplits[];
  private readonly layouts: Layout[] = [];
  private readonly coveringsOf = new Map<Layout, readonly Covering[]>();
  private readonly branchOf = new Map<Layout, Branch>();
  private readonly reasons: Problem[] = [];
  /** By roll width, what stood in the way of a plan; a warning of every layout as long as that width has none. */
  private readonly widthWarnings = new Map<Ticks, string>();
  private readonly signatures = new Set<string>();
  private steps = 0;
  private best: string | null = null;

  constructor(instance: Instance, options: SolveOptions, run: Run) {
    this.instance = instance;
    this.options = options;
    this.run = run;
    this.groups = mirrorGroups(instance.elevations);
    this.measuring = measuringOf(instance, this.groups);
    this.known = this.groups.map(knownSplits);
  }

  result(): Result {
    const branches = this.branches();
    for (const branch of branches) this.layOutEach(branch, combinations(branch.groups));
    this.sharpen((chosen) => [chosen]);
    for (const { rollWidth } of new Set(branches.map(({ choice }) => choice))) this.improve(rollWidth);
    this.sharpen((chosen, plan) => [
      chosen,
      ...plan.layouts.filter(({ id }) => plan.frontier.includes(id)),
      ...plan.layouts,
    ]);
    if (this.layouts.length > 0) return { status: "planned", plan: this.finalPlan() };
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
        this.run.report({ kind: "step", done: this.steps, of, what: this.inWords(choice, preferred) });
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
      if (this.layouts.length > 0) return;
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
    for (const [i, { source, mirrors }] of this.groups.entries()) {
      const covered = coverGroup(this.instance, source, mirrors, limits, this.run, this.known[i]);
      if ("reasons" in covered) reasons.push(...covered.reasons);
      else groups.push(covered.coverings);
    }
    return groups.length === this.groups.length ? { choice, preferred, groups } : null;
  }

  private noteWidth(choice: WidthChoice, reasons: readonly Problem[]): void {
    this.reasons.push(...reasons);
    if (choice.rollWidth === null) return;
    const why = reasons[0]?.why ?? "no layout fits";
    this.widthWarnings.set(choice.rollWidth, `No plan on ${this.widthName(choice.rollWidth)} film: ${why}`);
  }

  private layOutEach(branch: Branch, wanted: readonly Combination[]): void {
    const failures: Problem[] = [];
    for (const { policy, coverings } of wanted) {
      if (this.over()) return;
      const seams = coverings.reduce((total, { measures }) => total + measures.visibleSeams, 0);
      const name = policy === "between" ? `${seams}-seams` : policyNames[policy];
      const made = this.make(branch, `${this.label(branch.choice, branch.preferred)}-${name}`, coverings);
      if (made !== null && "reasons" in made) failures.push(...made.reasons);
    }
    if (failures.length > 0 && !this.layouts.some((layout) => layout.rollWidth === branch.choice.rollWidth)) {
      this.noteWidth(branch.choice, failures);
    }
    this.reportBest();
  }

  /** Changes the covering of one group at a time for as long as that lowers the cost of the cheapest layout of a width. */
  private improve(rollWidth: Ticks | null): void {
    let best = this.layouts.filter((layout) => layout.rollWidth === rollWidth).sort(byCost)[0];
    const branch = best && this.branchOf.get(best);
    if (branch === undefined) return;
    let changes = 0;
    for (let better = true; better && best !== undefined; ) {
      better = false;
      for (const [group, coverings] of branch.groups.entries()) {
        for (const covering of coverings) {
          if (this.over() || changes >= MOST_CHANGES) return this.reportBest();
          const changed = (this.coveringsOf.get(best) as readonly Covering[]).with(group, covering);
          const made = this.make(branch, `${this.label(branch.choice, branch.preferred)}-improved`, changed);
          if (made === null) continue;
          changes++;
          if ("layout" in made && byCost(made.layout, best) < 0) {
            best = made.layout;
            better = true;
          }
        }
      }
    }
    this.reportBest();
  }

  /**
   * Looks for sharp bounds of some layouts, where the host loaded an engine for the programmes that takes; each is reported
   * as it comes. Rounds are counted, so that a run without a limit of time repeats on any machine.
   */
  private sharpen(of: (chosen: Layout, plan: Plan) => readonly Layout[]): void {
    const { engine } = this.options;
    if (engine === undefined || this.layouts.length === 0) return;
    const plan = this.plan();
    const chosen = plan.layouts.find(({ id }) => id === plan.chosen) as Layout;
    for (const layout of of(chosen, plan)) {
      if (this.run.stop()) return;
      const { cost } = layout.totals;
      const effort = { engine, rounds: ROUNDS_OF_BOUND, stop: this.run.stop };
      if (this.measuring.bounds.sharpen(this.boundKey(layout), cost.total, effort)) this.reportPlan(this.plan());
    }
  }

  private boundKey(layout: Layout): BoundKey {
    const { choice } = this.branchOf.get(this.made(layout.id)) as Branch;
    return { choice, nesting: layout.nesting, seams: seamCount(layout.totals) };
  }

  private made(id: string): Layout {
    return this.layouts.find((layout) => layout.id === id) as Layout;
  }

  /** Makes and verifies a layout; null when the very same was made before. */
  private make(
    branch: Branch,
    id: string,
    coverings: readonly Covering[],
  ): { layout: Layout } | { reasons: readonly Problem[] } | null {
    const windows = coverings.flatMap(({ panels }) => panels.map((panel) => [panel.id, panel.direction, panel.window]));
    const signature = JSON.stringify([branch.choice.rollWidth, windows]);
    if (this.signatures.has(signature)) return null;
    this.signatures.add(signature);
    this.steps++;
    const made = layOut(
      this.instance,
      this.measuring,
      this.unusedId(id),
      branch.choice,
      coverings,
      this.run,
      this.options.engine,
    );
    if ("reasons" in made) return made;
    const broken = verifyLayout(this.instance, made.layout);
    if (broken.length > 0) {
      const says = broken.map((violation) => `${violation.rule} at ${violation.at.join(", ")}: ${violation.says}`);
      throw new Error(`layout ${id} breaks the contract: ${says.slice(0, 5).join("; ")}`);
    }
    this.layouts.push(made.layout);
    this.coveringsOf.set(made.layout, coverings);
    this.branchOf.set(made.layout, branch);
    return made;
  }

  private unusedId(id: string): string {
    const used = new Set(this.layouts.map((layout) => layout.id));
    for (let n = 2, name = id; ; n++) {
      if (!used.has(name)) return name;
      name = `${id}-${n}`;
    }
  }

  /** Sends the plan as it stands when its chosen layout is new. */
  private reportBest(): void {
    if (this.layouts.length === 0) return;
    const plan = this.plan();
    const state = `${plan.chosen} ${plan.frontier.join(" ")}`;
    if (state === this.best) return;
    this.best = state;
    this.reportPlan(plan);
  }

  private reportPlan(plan: Plan): void {
    this.run.report({ kind: "plan", plan });
  }

  private plan(): Plan {
    const planned = new Set(this.layouts.map(({ rollWidth }) => rollWidth));
    const warnings = [...this.widthWarnings].flatMap(([width, warning]) => (planned.has(width) ? [] : [warning]));
    const told = withoutNearTies(this.layouts).map((layout) => ({
      ...layout,
      bound: this.measuring.bounds.against(this.boundKey(layout), layout.totals.cost.total),
      warnings: [...warnings, ...layout.warnings],
    }));
    const frontier = frontierOf(told);
    return {
      jobName: this.instance.name,
      unit: this.instance.unit,
      seed: this.options.seed,
      layouts: worthComparing(told, frontier),
      frontier,
      chosen: frontier[0] as string,
    };
  }

  private finalPlan(): Plan {
    const plan = this.plan();
    const broken = verifyPlan(this.instance, plan);
    if (broken.length > 0) {
      throw new Error(`the plan breaks the contract: ${broken.map(({ rule, says }) => `${rule}: ${says}`).join("; ")}`);
    }
    return plan;
  }

  private over(): boolean {
    return this.run.stop() || (this.run.work !== null && this.steps >= this.run.work);
  }

  private widthName(width: number): string {
    return `${Number(ticksTo(width, this.instance.unit).toFixed(3))} ${this.instance.unit}`;
  }

  private inWords({ rollWidth }: WidthChoice, preferred: Direction | null): string {
    const film = rollWidth === null ? "Loose pieces" : `${this.widthName(rollWidth)} film`;
    return preferred === null ? film : `${film}, ${preferred}`;
  }

  private label(choice: WidthChoice, preferred: Direction | null): string {
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
  hiddenSeams: "hidden-seams",
} as const;

function distinct(problems: readonly Problem[]): Problem[] {
  const seen = new Map(problems.map((problem) => [`${problem.path} ${problem.why}`, problem]));
  return [...seen.values()];
}
