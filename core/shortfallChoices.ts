import { longestLoad } from "./choosing/rollWidths.ts";
import type { Side } from "./geometry/box.ts";
import type { Direction, Elevation, FillChoice, Film, Instance, Section } from "./model/instance.ts";
import type { Layout, ShortfallChoice } from "./model/plan.ts";
import { offcutSupplies } from "./shortfallOffcuts.ts";
import type { Variant, VariantPlan, VariantPlanner } from "./shortfallPlans.ts";
import type { Rest, Strip } from "./shortfallRests.ts";
import { formatLength } from "./units/formatLength.ts";
import type { Ticks } from "./units/ticks.ts";

/** One section on one roll width in one direction. */
export interface ShortfallPlace {
  readonly elevation: Elevation;
  readonly film: Film;
  readonly section: Section;
  readonly rollWidth: Ticks;
  readonly direction: Direction;
  /** Where no strip does that is only as deep as it must be, it may be this deep. */
  readonly deepest: Ticks;
}

/**
 * What the ways to make up for a rest come to, each planned for real.
 *
 * @returns one more panel, the best wider roll, the other direction, the best strip of the same film, the best strip of
 *   another film (of those that the job uses for fills; of all, where it uses none), in this order; ways without a plan
 *   left out. Of equally dear ones the first tried.
 * @throws Error when a plan made here breaks a rule of the contract
 */
export function shortfallChoices(
  instance: Instance,
  place: ShortfallPlace,
  rest: Rest,
  planner: VariantPlanner,
): ShortfallChoice[] {
  const ways = new Ways(instance, place, rest, planner);
  const choices = [
    ways.onePanelMore(),
    ways.widerRoll(),
    ways.otherDirection(),
    ways.fillSameFilm(),
    ways.fillOtherFilm(),
  ];
  return choices.flatMap((choice) => choice ?? []);
}

class Ways {
  private readonly instance: Instance;
  private readonly place: ShortfallPlace;
  private readonly rest: Rest;
  private readonly planner: VariantPlanner;
  private readonly plain: Variant;

  constructor(instance: Instance, place: ShortfallPlace, rest: Rest, planner: VariantPlanner) {
    this.instance = instance;
    this.place = place;
    this.rest = rest;
    this.planner = planner;
    const { section, direction, rollWidth } = place;
    this.plain = { section, direction, rollWidth, fill: null };
  }

  onePanelMore(): ShortfallChoice | null {
    const plan = this.planner.cheapest(this.plain, (panels) => panels.length === this.rest.panels + 1);
    return plan && this.choice("onePanelMore", plan, `one more panel: ${this.inPanels(plan, this.place.rollWidth)}`);
  }

  widerRoll(): ShortfallChoice | null {
    const { film, rollWidth } = this.place;
    const wider = film.rollWidths.filter((width) => width > rollWidth && longestLoad(this.instance, film, width) > 0);
    const choices = wider.map((width) => {
      const plan = this.planner.cheapest({ ...this.plain, rollWidth: width }, () => true);
      const choice = plan && this.choice("widerRoll", plan, `a wider roll: ${this.inPanels(plan, width)}`);
      return choice && { ...choice, rollWidth: width };
    });
    return cheapestOf(choices);
  }

  otherDirection(): ShortfallChoice | null {
    const { section, rollWidth, direction: here } = this.place;
    if (section.direction !== "either") return null;
    const direction = here === "vertical" ? "horizontal" : "vertical";
    const plan = this.planner.cheapest({ ...this.plain, direction }, () => true);
    const says = `the other direction: ${plan && this.inPanels(plan, rollWidth, `${direction} `)}`;
    return plan && this.choice("otherDirection", plan, says);
  }

  fillSameFilm(): ShortfallChoice | null {
    const { elevation, film, rollWidth } = this.place;
    return this.bestStrip((strip) => {
      const supplies = offcutSupplies(this.instance, elevation, film, rollWidth, strip.depth);
      return [
        this.strip("fillSameFilm", strip, film, film),
        ...supplies.map((supply) => this.strip("fillSameFilm", strip, film, supply.film, supply)),
      ];
    });
  }

  fillOtherFilm(): ShortfallChoice | null {
    const { films, elevations } = this.instance;
    const others = films.filter(({ id }) => id !== this.place.film.id);
    const named = others.filter(({ id }) => elevations.some(({ fill }) => fill.some((choice) => choice.film === id)));
    const tried = named.length > 0 ? named : others;
    return this.bestStrip((strip) => tried.map((film) => this.strip("fillOtherFilm", strip, film, film)));
  }

  /** The cheapest strip of the least depth; only where no edge takes one, of any depth up to the deepest. */
  private bestStrip(tried: (strip: Strip) => readonly (ShortfallChoice | null)[]): ShortfallChoice | null {
    const { edges } = this.rest;
    const least = cheapestOf(edges.flatMap(tried));
    if (least !== null) return least;
    const { deepest } = this.place;
    return cheapestOf(edges.flatMap(({ edge, depth }) => (depth < deepest ? tried({ edge, depth: deepest }) : [])));
  }

  /**
   * Full panels and a strip beside them.
   *
   * @param film what it is of; `lying` stands for it where it comes from a supply of its own
   */
  private strip(
    way: "fillSameFilm" | "fillOtherFilm",
    { edge, depth }: Strip,
    film: Film,
    lying: Film,
    supply?: Variant["supply"],
  ): ShortfallChoice | null {
    const fill: FillChoice = { edge, maxDepth: depth, film: lying.id };
    const variant = { ...this.plain, fill, ...(supply && { supply: { films: supply.films, stock: supply.stock } }) };
    const plan = this.planner.cheapest(
      variant,
      (panels, strips) => panels.length === this.rest.panels && strips.length > 0,
    );
    if (plan === null) return null;
    const what = way === "fillSameFilm" ? "the same film" : film.name || film.id;
    const used = depthOf(plan.layout, this.place.elevation, edge);
    const deep = used === null ? "" : ` ${this.inWords(used)} deep`;
    const from = this.offcutsOf(plan.layout, lying);
    const beside = this.inPanels(plan, this.place.rollWidth);
    const says = `a strip of ${what}${deep} along the ${edge} edge${from}, with ${beside}`;
    return { ...this.choice(way, plan, says), film: film.id };
  }

  /** ", from offcut O-3" where all strips come from offcuts. */
  private offcutsOf({ panels, rolls }: Layout, film: Film): string {
    const strips = new Set(panels.filter(({ role }) => role === "fill").map(({ id }) => id));
    const loads = rolls.filter(
      (load) => load.film === film.id && load.cuts.some(({ pieces }) => pieces.some(({ id }) => strips.has(id))),
    );
    const entries = loads.map(({ stock }) => this.instance.stock.find(({ id }) => id === stock));
    if (entries.length === 0 || entries.some((entry) => entry?.kind !== "offcut")) return "";
    const ids = [...new Set(entries.map((entry) => entry?.id))];
    return `, from ${ids.length === 1 ? "offcut" : "offcuts"} ${ids.join(" and ")}`;
  }

  private choice(way: ShortfallChoice["way"], { layout: { totals } }: VariantPlan, says: string): ShortfallChoice {
    return {
      way,
      says,
      film: null,
      rollWidth: this.place.rollWidth,
      panels: totals.panelCount,
      seamLength: totals.visibleSeamLength,
      filmArea: totals.filmArea,
      wastePercent: totals.wastePercent,
      cost: totals.cost.total,
    };
  }

  private inPanels({ ofSection }: VariantPlan, width: Ticks, way = ""): string {
    return `${ofSection.length} ${way}${ofSection.length === 1 ? "panel" : "panels"} of ${this.inWords(width)} film`;
  }

  private inWords(length: Ticks): string {
    return formatLength(length, this.instance.unit);
  }
}

/** How deep the strip along an edge is: from there to its border with the panels; null where nothing needed lies between. */
function depthOf({ seams }: Layout, { box }: Elevation, edge: Side): Ticks | null {
  const strip = `fill-${edge}`;
  const border = seams.find((seam) => seam.border && seam.between.includes(strip));
  if (border === undefined) return null;
  const from = { left: box.x0, right: box.x1, bottom: box.y0, top: box.y1 }[edge];
  return Math.abs(border.at - from);
}

function cheapestOf(choices: readonly (ShortfallChoice | null)[]): ShortfallChoice | null {
  return choices.reduce((best, choice) => {
    if (choice === null || best === null) return best ?? choice;
    return choice.cost < best.cost ? choice : best;
  }, null);
}
