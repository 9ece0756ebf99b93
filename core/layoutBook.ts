import type { BoundKey } from "./bounds.ts";
import type { MirrorGroup } from "./choosing/mirrorGroups.ts";
import type { WidthChoice } from "./choosing/rollWidths.ts";
import { frontierOf, withoutNearTies } from "./costing/frontier.ts";
import { worthComparing } from "./costing/worthComparing.ts";
import { type Laying, layOut, type Measuring, measuringOf } from "./layOut.ts";
import type { Covering } from "./model/covering.ts";
import type { Direction, Instance } from "./model/instance.ts";
import { type Layout, type Plan, type Shortfall, seamCount } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import type { Run } from "./model/run.ts";
import type { ProgrammeEngine } from "./programme/programme.ts";
import { verifyLayout, verifyPlan } from "./verifying/verifyPlan.ts";

/** One roll width and one direction for the sections that leave it open, with every covering found for each group. */
export interface Branch {
  readonly choice: WidthChoice;
  readonly preferred: Direction | null;
  readonly groups: readonly (readonly Covering[])[];
}

/** A layout with what it was made of. */
export interface Entry {
  readonly layout: Layout;
  readonly branch: Branch;
  readonly coverings: readonly Covering[];
}

/** What a layout is to be made of; no two are made alike. */
export interface Wanted extends Laying {
  readonly id: string;
  readonly branch: Branch;
  readonly coverings: readonly Covering[];
  /** Kept only when it costs less than this one. */
  readonly insteadOf?: Layout;
}

/** Rounds in which the sharp bound of the chosen layout may be looked for, and of each other one. */
const ROUNDS_OF_CHOSEN = 40;
const ROUNDS_OF_OTHERS = 10;
/** What a layout made in place of another must save of its cost: freed of cuts, more, since straight cuts are worth much. */
const WORTH_IT = { crosscut: 1e-6, free: 5e-3 } as const;

/** Every layout made of one job, verified, with the bounds they are held against; and the plan that they come to. */
export class LayoutBook {
  /** Layouts made so far, kept or not. */
  made = 0;
  readonly entries: Entry[] = [];
  private readonly instance: Instance;
  private readonly seed: number;
  private readonly engine: ProgrammeEngine | undefined;
  private readonly run: Run;
  private readonly measuring: Measuring;
  private readonly signatures = new Set<string>();
  private reported: string | null = null;
  /** Told with every layout: widths without a plan. */
  warnings: () => readonly string[] = () => [];
  /** Told with the plan once they are known. */
  shortfalls: readonly Shortfall[] = [];

  constructor(
    instance: Instance,
    groups: readonly MirrorGroup[],
    { seed, engine }: { readonly seed: number; readonly engine?: ProgrammeEngine },
    run: Run,
  ) {
    this.instance = instance;
    this.seed = seed;
    this.engine = engine;
    this.run = run;
    this.measuring = measuringOf(instance, groups);
  }

  /**
   * Makes and verifies a layout; null when the very same was made before.
   *
   * @throws Error when it breaks a rule of the contract: a fault of this program, never of the job
   */
  make(wanted: Wanted): { entry: Entry } | { reasons: readonly Problem[] } | null {
    const { id, branch, coverings, insteadOf, nesting, patternSteps } = wanted;
    const windows = coverings.flatMap(({ panels }) => panels.map((panel) => [panel.id, panel.direction, panel.window]));
    const signature = JSON.stringify([branch.choice.rollWidth, nesting, patternSteps > 0, windows]);
    if (this.signatures.has(signature)) return null;
    this.signatures.add(signature);
    this.made++;
    const { instance, measuring, run, engine } = this;
    const laid = layOut(instance, measuring, this.unusedId(id), branch.choice, coverings, wanted, run, engine);
    if ("reasons" in laid) return laid;
    const { layout } = laid;
    if (
      insteadOf !== undefined &&
      !(layout.totals.cost.total < insteadOf.totals.cost.total * (1 - WORTH_IT[nesting]))
    ) {
      return null;
    }
    const broken = verifyLayout(instance, layout);
    if (broken.length > 0) {
      const says = broken.map((violation) => `${violation.rule} at ${violation.at.join(", ")}: ${violation.says}`);
      throw new Error(`layout ${layout.id} breaks the contract: ${says.slice(0, 5).join("; ")}`);
    }
    const entry = { layout, branch, coverings };
    this.entries.push(entry);
    return { entry };
  }

  /** The entry of a layout, or of what a plan tells of it. */
  entryOf({ id }: Pick<Layout, "id">): Entry {
    return this.entries.find(({ layout }) => layout.id === id) as Entry;
  }

  /**
   * Looks for sharp bounds of some layouts, where the host loaded an engine for the programmes that takes; reported as they
   * come. Rounds are counted, so that a run without a limit of time repeats on any machine.
   */
  sharpen(layouts: readonly Layout[], chosen: string): void {
    const { engine, run } = this;
    if (engine === undefined) return;
    for (const layout of layouts) {
      if (run.stop()) return;
      const closely = layout.id === chosen;
      const effort = { engine, closely, rounds: closely ? ROUNDS_OF_CHOSEN : ROUNDS_OF_OTHERS, stop: run.stop };
      const asked = this.measuring.bounds.sharpen(this.boundKey(layout), layout.totals.cost.total, effort);
      if (asked) run.report({ kind: "plan", plan: this.plan() });
    }
  }

  /** Sends the plan as it stands when its choice or its frontier is new. */
  report(): void {
    if (this.entries.length === 0) return;
    const plan = this.plan();
    const state = `${plan.chosen} ${plan.frontier.join(" ")}`;
    if (state === this.reported) return;
    this.reported = state;
    this.run.report({ kind: "plan", plan });
  }

  plan(): Plan {
    const told = withoutNearTies(this.entries.map(({ layout }) => layout)).map((layout) => ({
      ...layout,
      bound: this.measuring.bounds.against(this.boundKey(layout), layout.totals.cost.total),
      warnings: [...this.warnings(), ...layout.warnings],
    }));
    const frontier = frontierOf(told);
    return {
      jobName: this.instance.name,
      unit: this.instance.unit,
      seed: this.seed,
      layouts: worthComparing(told, frontier),
      frontier,
      chosen: frontier[0] as string,
      ...(this.shortfalls.length > 0 ? { shortfalls: this.shortfalls } : {}),
    };
  }

  /** The plan, verified as a whole. */
  finalPlan(): Plan {
    const plan = this.plan();
    const broken = verifyPlan(this.instance, plan);
    if (broken.length > 0) {
      throw new Error(`the plan breaks the contract: ${broken.map(({ rule, says }) => `${rule}: ${says}`).join("; ")}`);
    }
    return plan;
  }

  private boundKey(layout: Layout): BoundKey {
    const { choice } = this.entryOf(layout).branch;
    const { nesting, totals, sections = [] } = layout;
    return { choice, nesting, seams: seamCount(totals), sections };
  }

  private unusedId(id: string): string {
    const used = new Set(this.entries.map(({ layout }) => layout.id));
    for (let n = 2, name = id; ; n++) {
      if (!used.has(name)) return name;
      name = `${id}-${n}`;
    }
  }
}
