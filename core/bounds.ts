import type { MirrorGroup } from "./choosing/mirrorGroups.ts";
import type { WidthChoice } from "./choosing/rollWidths.ts";
import type { Elevation, Instance } from "./model/instance.ts";
import type { Bound, FoundSection } from "./model/plan.ts";
import { type LowerBound, lowerBounds } from "./nesting/lowerBounds.ts";
import type { SharpEffort } from "./nesting/sharpBound.ts";
import { leastAcross } from "./panelling/foundSections.ts";
import { sharpBounds } from "./sharpen.ts";
import type { Ticks } from "./units/ticks.ts";

/** Costs nearer than this are equal: nobody is charged a fraction of a cent. */
const ONE_CENT = 0.005;

export interface BoundKey {
  readonly choice: WidthChoice;
  readonly nesting: "crosscut" | "free";
  readonly seams: number;
  /** Sections found, in place of those given for the elevations that they name. */
  readonly sections: readonly FoundSection[];
}

type Question = Omit<BoundKey, "sections">;

interface Found extends LowerBound {
  readonly rollWidth: Ticks | null;
  readonly nesting: "crosscut" | "free";
  readonly seams: number;
}

/** The lower bounds known of one job, for its own sections and for every set of sections found. */
export class KnownBounds {
  private readonly instance: Instance;
  private readonly groups: readonly MirrorGroup[];
  private readonly bySections = new Map<string, BoundsOfSections>();

  constructor(instance: Instance, groups: readonly MirrorGroup[]) {
    this.instance = instance;
    this.groups = groups;
  }

  /** Looks for a sharp bound, once for each question, unless the cost is met already; true when one was looked for. */
  sharpen(key: BoundKey, cost: number, effort: SharpEffort): boolean {
    return this.boundsOf(key).sharpen(key, cost, effort);
  }

  /** What a layout of such a cost says of its bound. */
  against(key: BoundKey, cost: number): Bound {
    return this.boundsOf(key).against(key, cost);
  }

  private boundsOf({ sections }: BoundKey): BoundsOfSections {
    const key = JSON.stringify(sections.map(({ elevation, box, direction }) => [elevation, box, direction]));
    let bounds = this.bySections.get(key);
    if (bounds === undefined) {
      const parted = (elevation: Elevation) => inSections(elevation, sections);
      const groups = this.groups.map(({ source, mirrors, ...rest }) => ({
        ...rest,
        source: parted(source),
        mirrors: mirrors.map(parted),
      }));
      const elevations = this.instance.elevations.map(parted);
      bounds =
        sections.length === 0
          ? new BoundsOfSections(this.instance, this.groups)
          : new BoundsOfSections({ ...this.instance, elevations }, groups);
      this.bySections.set(key, bounds);
    }
    return bounds;
  }
}

/** An elevation with the sections found for it, or as it is where none were. */
function inSections(elevation: Elevation, found: readonly FoundSection[]): Elevation {
  const own = found.filter((section) => section.elevation === elevation.id);
  if (own.length === 0) return elevation;
  const { heads } = elevation;
  const sections = own.map(({ id, box, direction }) => ({
    id,
    box,
    direction,
    maxAcross: leastAcross(elevation.sections, box),
    heads,
  }));
  return { ...elevation, sections };
}

/**
 * The lower bounds known of one job in given sections: quick ones at once, sharp ones where they were asked for. A bound
 * for so many visible seams holds for fewer too, and one for free nesting holds for cuts across: the highest counts.
 */
class BoundsOfSections {
  private readonly quick: ReturnType<typeof lowerBounds>;
  private readonly sharp: ReturnType<typeof sharpBounds>;
  private readonly found: Found[] = [];
  private readonly asked = new Set<string>();

  constructor(instance: Instance, groups: readonly MirrorGroup[]) {
    this.quick = lowerBounds(instance);
    this.sharp = sharpBounds(instance, groups);
  }

  /** The highest bounds known; the quick one is worked out when first asked for. */
  of(key: Question): LowerBound {
    const { choice, nesting, seams } = key;
    const name = `quick ${choice.rollWidth} ${nesting} ${seams}`;
    if (!this.asked.has(name)) {
      this.asked.add(name);
      this.keep(key, this.quick({ rollWidth: choice.rollWidth, nesting, seams }));
    }
    const holding = this.found.filter(
      (bound) =>
        bound.rollWidth === choice.rollWidth &&
        bound.seams >= seams &&
        (bound.nesting === nesting || bound.nesting === "free"),
    );
    const highest = holding.reduce((a, b) => (b.cost > a.cost ? b : a));
    return { ...highest, filmArea: Math.max(...holding.map(({ filmArea }) => filmArea)) };
  }

  /** Looks for a sharp bound, once for each question, unless the cost is met already; true when one was looked for. */
  sharpen(key: Question, cost: number, effort: SharpEffort): boolean {
    const name = `sharp ${key.choice.rollWidth} ${key.nesting} ${key.seams}`;
    if (this.asked.has(name) || this.against(key, cost).proven) return false;
    this.asked.add(name);
    const bound = this.sharp(key, effort);
    if (bound !== null) this.keep(key, bound);
    return bound !== null;
  }

  /** What a layout of such a cost says of its bound. */
  against(key: Question, cost: number): Bound {
    const { cost: least, filmArea, by } = this.of(key);
    const proven = Math.abs(cost - least) <= ONE_CENT;
    const bound = proven ? cost : least;
    return { cost: bound, filmArea, gapPercent: cost === 0 ? 0 : (100 * (cost - bound)) / cost, proven, by };
  }

  private keep({ choice: { rollWidth }, nesting, seams }: Question, bound: LowerBound): void {
    this.found.push({ ...bound, rollWidth, nesting, seams });
  }
}
