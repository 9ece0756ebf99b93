import { mirrorGroups } from "./choosing/mirrorGroups.ts";
import { panellingLimits, type WidthChoice, widthChoices, withoutFilm } from "./choosing/rollWidths.ts";
import { layOut, type Measuring, measuringOf } from "./layOut.ts";
import type { Covering } from "./model/covering.ts";
import type { Direction, Elevation, FillChoice, Instance, Section } from "./model/instance.ts";
import type { Layout, Panel } from "./model/plan.ts";
import { type Run, seededRandom } from "./model/run.ts";
import { nonDominated } from "./panelling/combineSections.ts";
import { Group, type KnownSplits, knownSplits } from "./panelling/group.ts";
import { selectCoverings } from "./panelling/selectCoverings.ts";
import type { Ticks } from "./units/ticks.ts";
import { verifyLayout } from "./verifying/verifyPlan.ts";

/** One section of one elevation, planned in another way than the job's: by one width, one direction, one fill or none. */
export interface Variant {
  readonly section: Section;
  readonly direction: Direction;
  readonly rollWidth: Ticks;
  readonly fill: FillChoice | null;
  /** Film and stock in place of the job's. */
  readonly supply?: Pick<Instance, "films" | "stock">;
}

/** A plan of one copy of the elevation alone. */
export interface VariantPlan {
  readonly layout: Layout;
  /** Panels of the section. */
  readonly ofSection: readonly Panel[];
}

/** Coverings of a variant, cheapest by estimate first, that are laid on rolls before the cheapest is told. */
const MOST_LAID = 3;

/** Plans variants of one elevation; the same one is covered once, and a covering laid once. */
export class VariantPlanner {
  /** What was worked out so far: each covering counts one, and one more for each thing that seams heed. */
  effort = 0;
  private readonly instance: Instance;
  private readonly elevation: Elevation;
  private readonly run: Run;
  private readonly known: KnownSplits = knownSplits();
  private readonly coverings = new Map<string, Covered | null>();
  private readonly layouts = new Map<Covering, Layout | null>();

  constructor(instance: Instance, elevation: Elevation, run: Run) {
    this.instance = instance;
    this.elevation = elevation;
    this.run = run;
  }

  /**
   * The cheapest plan of a variant among those wanted.
   *
   * @param wanted by the panels of the section, and those of fills
   * @returns a plan that has passed the verifier, or null when there is none
   * @throws Error when a layout made here breaks a rule of the contract: a fault of this program, never of the job
   */
  cheapest(
    variant: Variant,
    wanted: (ofSection: readonly Panel[], ofFill: readonly Panel[]) => boolean,
  ): VariantPlan | null {
    const covered = this.cover(variant);
    if (covered === null) return null;
    const ofSection = ({ panels }: Pick<Covering, "panels">) =>
      panels.filter(({ section }) => section === variant.section.id);
    const suitable = covered.coverings.filter((covering) =>
      wanted(
        ofSection(covering),
        covering.panels.filter(({ role }) => role === "fill"),
      ),
    );
    let best: Layout | null = null;
    for (const covering of suitable.slice(0, MOST_LAID)) {
      const layout = this.lay(covered, covering);
      if (layout !== null && (best === null || layout.totals.cost.total < best.totals.cost.total)) best = layout;
    }
    return best === null ? null : { layout: best, ofSection: ofSection(best) };
  }

  private cover(variant: Variant): Covered | null {
    const { section, direction, rollWidth, fill, supply } = variant;
    const key = JSON.stringify([section.id, direction, rollWidth, fill, supply ?? null]);
    const known = this.coverings.get(key);
    if (known !== undefined) return known;
    const { openings, keepClear, obstacles, breaks, colourEdges } = this.elevation;
    this.effort += 1 + [openings, keepClear, obstacles, breaks, colourEdges].flat().length;
    const instance = aloneWith(this.instance, this.elevation, variant);
    const [elevation] = instance.elevations as readonly [Elevation];
    const choice = widthChoices(instance).find((candidate) => candidate.rollWidth === rollWidth);
    let made: Covered | null = null;
    if (choice !== undefined && withoutFilm(instance, choice).length === 0) {
      const limits = panellingLimits(instance, choice, null);
      const group = new (fill === null ? Group : FilledGroup)(instance, elevation, [], limits, this.known);
      const found = nonDominated(group.coverAll(this.run), instance.rules.avoidPenalty);
      const coverings = selectCoverings(found).map((each) => group.record(each));
      coverings.sort((a, b) => a.measures.costEstimate - b.measures.costEstimate);
      const measuring = measuringOf(instance, mirrorGroups(instance.elevations));
      made = { instance, choice, measuring, coverings };
    }
    this.coverings.set(key, made);
    return made;
  }

  private lay({ instance, choice, measuring }: Covered, covering: Covering): Layout | null {
    const known = this.layouts.get(covering);
    if (known !== undefined) return known;
    const run: Run = { random: seededRandom(1), stop: this.run.stop, report: () => {}, work: null };
    const laying = { nesting: "crosscut", patternSteps: 0 } as const;
    const made = layOut(instance, measuring, "alone", choice, [covering], laying, run);
    const layout = "layout" in made ? made.layout : null;
    const broken = layout === null ? [] : verifyLayout(instance, layout);
    if (broken.length > 0) {
      const says = broken.map(({ rule, at, says }) => `${rule} at ${at.join(", ")}: ${says}`);
      throw new Error(`a plan of ${this.elevation.id} alone breaks the contract: ${says.slice(0, 5).join("; ")}`);
    }
    this.layouts.set(covering, layout);
    return layout;
  }
}

/** A group whose fill is in use: what it comes to is asked even where it is no better than panels alone. */
class FilledGroup extends Group {
  override fillWays(): ReturnType<Group["fillWays"]> {
    return super.fillWays().filter((fills) => fills.length > 0);
  }
}

interface Covered {
  readonly instance: Instance;
  readonly choice: WidthChoice;
  readonly measuring: Measuring;
  /** Cheapest by estimate first. */
  readonly coverings: readonly Covering[];
}

/** The job with one copy of one elevation and nothing else, planned in another way. */
function aloneWith(instance: Instance, elevation: Elevation, { section, direction, fill, supply }: Variant): Instance {
  const alone: Elevation = {
    ...elevation,
    count: 1,
    findSections: false,
    sections: elevation.sections.map((one) => (one === section ? { ...one, direction } : one)),
    fill: fill === null ? [] : [fill],
  };
  const sameLot = instance.sameLot.filter(({ elevations }) => elevations.includes(elevation.id));
  return {
    ...instance,
    ...supply,
    elevations: [alone],
    pieces: [],
    sameLot: sameLot.map(({ id }) => ({ id, elevations: [elevation.id] })),
  };
}
