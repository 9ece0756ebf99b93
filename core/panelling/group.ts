import type { Axis } from "../geometry/box.ts";
import { neededRegion, type Region } from "../geometry/region.ts";
import type { Covering, CoveringMeasures, PanellingLimits } from "../model/covering.ts";
import type { Direction, Elevation, Instance } from "../model/instance.ts";
import type { Panel, Seam } from "../model/plan.ts";
import type { Problem } from "../model/problem.ts";
import type { Run } from "../model/run.ts";
import type { Ticks } from "../units/ticks.ts";
import { faceWindows } from "./borderBands.ts";
import { type Combination, combineSections } from "./combineSections.ts";
import { fillWays } from "./fillPieces.ts";
import { borderSums, pricesOf } from "./groupPrices.ts";
import { bordersKeep, type Expected, type GroupHold, groupHolds, type Settled, settledBy } from "./holds.ts";
import { axesLeft, HoldsFeasible, type HoldsWay } from "./holdsFeasible.ts";
import { whyHoldsFail } from "./holdsReasons.ts";
import { groupMembers, type Member } from "./members.ts";
import { directionOf, splitAxis } from "./orientation.ts";
import { borderBlocked, tooManyOpenSeams, whyNoSplit } from "./reasons.ts";
import { type RecordedBorder, recordMember } from "./recordCovering.ts";
import { type SectionOption, sectionOptions } from "./sectionOptions.ts";
import {
  type Border,
  borderMeets,
  bordersBetween,
  effectiveSections,
  type PanelSection,
  type UsedFill,
} from "./sections.ts";
import { type SectionTask, seamGrid, sectionTask } from "./sectionTask.ts";

/** Sections already looked at, and ways to split them already found, of one group under any limits. */
export interface KnownSplits {
  readonly tasks: Map<string, SectionTask | null>;
  readonly options: Map<string, readonly SectionOption[]>;
}

export const knownSplits = (): KnownSplits => ({ tasks: new Map(), options: new Map() });

/** A combination with its sections and borders, borders held against the windows chosen. */
export interface Covered extends Combination {
  readonly sections: readonly PanelSection[];
  readonly borders: readonly RecordedBorder[];
}

/** How a group is to be covered, beside its limits. */
export interface Asked {
  /** In place of those of its members. */
  readonly holds?: readonly GroupHold[];
  /** By section, what of the elevation that this one follows bears on it. */
  readonly follows?: ReadonlyMap<string, FollowedSection>;
  /** The whole grid of seams is tried. */
  readonly every?: boolean;
}

/** How a section is split on the elevation that this one follows. */
export interface FollowedSection {
  readonly axis: Axis;
  readonly places: readonly Ticks[];
  /** Whether the section is split along this axis wherever it can be. */
  readonly binds: boolean;
}

/** An elevation and all that mirror it, under some limits. */
export class Group {
  private readonly instance: Instance;
  private readonly source: Elevation;
  private readonly limits: PanellingLimits;
  private readonly members: readonly Member[];
  private readonly region: Region;
  private readonly grid: Ticks;
  private readonly openLimits: readonly number[] | null;
  private readonly known: KnownSplits;
  private readonly asked: Asked;
  private readonly holds: readonly GroupHold[];
  private plain: HoldsFeasible | null = null;

  constructor(
    instance: Instance,
    source: Elevation,
    mirrors: readonly Elevation[],
    limits: PanellingLimits,
    known: KnownSplits,
    asked: Asked = {},
  ) {
    this.known = known;
    this.asked = asked;
    this.instance = instance;
    this.source = source;
    this.limits = limits;
    this.members = groupMembers(instance, source, mirrors);
    this.holds = asked.holds ?? groupHolds(this.members);
    this.region = neededRegion(
      source.outline,
      source.openings.map(({ outline }) => outline),
    );
    this.grid = seamGrid(instance.unit);
    const { maxOpenSeams } = instance.rules;
    this.openLimits = maxOpenSeams === null ? null : this.members.map(() => maxOpenSeams);
  }

  /** The same group, asked otherwise. */
  asking(asked: Asked): Group {
    const { instance, source, limits, known } = this;
    const mirrors = this.members.slice(1).map(({ elevation }) => elevation);
    return new Group(instance, source, mirrors, limits, known, { ...this.asked, ...asked });
  }

  /**
   * All combinations worth keeping with any use of the fills; with holds on the whole grid where that alone has some.
   *
   * @param firstWay whether to look no further than the first use of the fills that has any
   */
  coverAll(run: Run, firstWay = false): Covered[] {
    const found: Covered[] = [];
    for (const fills of this.fillWays()) {
      if ((run.stop() || firstWay) && found.length > 0) break;
      found.push(...this.cover(fills));
    }
    if (found.length > 0 || this.holds.length === 0 || this.asked.every === true) return found;
    return this.feasible().keeps(this.holds) ? this.asking({ every: true }).coverAll(run, firstWay) : [];
  }

  fillWays(): readonly (readonly UsedFill[])[] {
    if (this.limits.withoutFills === true) return [[]];
    return fillWays(
      this.source,
      this.members,
      this.region,
      this.instance.rules,
      (film) => this.widest(film, this.limits.acrossByFilm),
      this.grid,
    );
  }

  /** All combinations worth keeping with these fills in use; empty when there is none. */
  cover(fills: readonly UsedFill[], openLimits = this.openLimits): Covered[] {
    const sections = effectiveSections(this.source, fills);
    if (sections === null) return [];
    const { rules } = this.instance;
    const borders = bordersBetween(sections, this.region, this.members, rules);
    if (!bordersKeep(this.holds, sections, borders, this.region)) return [];
    const start = borderSums(this.instance, this.members, borders);
    const left = openLimits?.map((limit, m) => limit - (start.open[m] as number)) ?? null;
    if (left?.some((limit) => limit < 0)) return [];
    const options: (readonly SectionOption[])[] = [];
    const withFilm: number[] = [];
    for (const [index, section] of sections.entries()) {
      if (this.region.extent(section.box) === null) {
        // A fill over nothing is no fill.
        if (section.role === "fill") return [];
        continue;
      }
      const list = this.optionsOf(section, index, borders, left);
      if (list.length === 0) return [];
      options.push(list);
      withFilm.push(index);
    }
    return combineSections(options, start, openLimits, rules.avoidPenalty).flatMap((combination) => {
      const picks: SectionOption[] = [];
      for (const [i, index] of withFilm.entries()) picks[index] = combination.picks[i] as SectionOption;
      const faced = borders.map((border) =>
        faceWindows(border, picks[border.low], picks[border.high], this.region, this.members),
      );
      if (faced.some(({ forbidden }) => forbidden)) return [];
      return [
        {
          ...combination,
          picks,
          sections,
          penalties: combination.penalties + faced.reduce((sum, { penalties }) => sum + penalties, 0),
          borders: borders.map((border, i) => ({ border, overlap: (faced[i] as { overlap: Ticks }).overlap })),
        },
      ];
    });
  }

  costOf({ cost, penalties }: Pick<Covered, "cost" | "penalties">): number {
    return cost + this.instance.rules.avoidPenalty * penalties;
  }

  record({ sections, picks, borders, ...measured }: Covered): Covering {
    const panels: Panel[] = [];
    const seams: Seam[] = [];
    for (const [m, member] of this.members.entries()) {
      const recorded = recordMember(member, m, sections, picks, borders, this.instance.rules);
      panels.push(...recorded.panels);
      seams.push(...recorded.seams);
    }
    const measures: CoveringMeasures = {
      windowArea: measured.windowArea,
      aloneArea: measured.aloneArea,
      openSeamsPerCopy: Math.max(0, ...measured.open),
      visibleSeams: measured.visible,
      visibleLength: measured.visibleLength,
      penalties: measured.penalties,
      panels: measured.panels,
      costEstimate: this.costOf(measured),
    };
    return { source: this.source.id, panels, seams, measures };
  }

  /**
   * Why nothing covers the group: its holds, where there is a covering without them; else looked for without fills,
   * section by section, then in borders and open seams.
   */
  reasons(run: Run): Problem[] {
    if (this.holds.length > 0) {
      const holding = (holds: readonly GroupHold[]) => this.asking({ holds }).coverAll(run, true).length > 0;
      const why = whyHoldsFail(this.holds, this.feasible(), holding, run.stop, this.instance.unit);
      return why === null ? this.asking({ holds: [] }).reasons(run) : [why];
    }
    const { rules, unit } = this.instance;
    const path = `elevations[${this.members[0]?.index}]`;
    const sections = effectiveSections(this.source, []) ?? [];
    const borders = bordersBetween(sections, this.region, this.members, rules);
    const reasons: Problem[] = [];
    for (const [index, section] of sections.entries()) {
      const tasks = this.directionsOf(section).flatMap(
        (direction) => this.taskOf(section, direction, index, borders) ?? [],
      );
      const why = tasks.map((task) =>
        whyNoSplit(task, {
          path: this.source.sections.length > 1 ? `${path}.sections[${index}]` : path,
          elevation: this.source.name || this.source.id,
          film: this.filmOf(section, this.members[0] as Member),
          unit,
        }),
      );
      if (why.length > 0 && why.every((list) => list.length > 0)) reasons.push(...why.flat());
    }
    for (const border of borders) {
      for (const [m, member] of this.members.entries()) {
        const kind = border.kinds[m] as Border["kinds"][number];
        const band = { u0: border.at - border.half, u1: border.at + border.half, v0: border.from, v1: border.to };
        for (const zone of member.zones) {
          if (zone.rule !== "never" || !borderMeets(border, kind, zone, band, this.region)) continue;
          const between = [sections[border.low]?.id ?? "", sections[border.high]?.id ?? ""] as const;
          reasons.push(borderBlocked(zone, between, member.elevation.name || member.elevation.id));
        }
      }
    }
    if (reasons.length > 0) return reasons;
    const unlimited =
      this.openLimits === null
        ? []
        : this.cover(
            [],
            this.members.map(() => 1e9),
          );
    if (unlimited.length > 0) {
      const least = Math.min(...unlimited.map(({ open }) => Math.max(...open)));
      return [
        tooManyOpenSeams("rules.maxOpenSeams", this.source.name || this.source.id, least, rules.maxOpenSeams ?? 0),
      ];
    }
    return [
      {
        path,
        value: this.source.id,
        why: `Each section of elevation '${this.source.name || this.source.id}' can be panelled by itself, but no choice of panels keeps the seams between its sections out of the zones that must stay whole.`,
        mend: 'Move the borders between the sections, or set the rule of the zones near them to "avoid" instead of "never".',
      },
    ];
  }

  private optionsOf(
    section: PanelSection,
    index: number,
    borders: readonly Border[],
    openLimits: readonly number[] | null,
  ): readonly SectionOption[] {
    const along = (direction: Direction) => this.splitAlong(section, direction, index, borders, openLimits);
    const directions = this.directionsOf(section);
    const followed = this.asked.follows?.get(section.id);
    if (followed?.binds === true && directions.includes(directionOf(followed.axis))) {
      const alike = along(directionOf(followed.axis));
      if (alike.length > 0) return alike;
    }
    const { preferred } = this.limits;
    if (directions.length > 1 && preferred !== null && section.role === "panel") {
      const wished = along(preferred);
      if (wished.length > 0) return wished;
      return along(preferred === "vertical" ? "horizontal" : "vertical");
    }
    return directions.flatMap(along);
  }

  /** Options of one section along one direction; the same question, asked for many ways to use fills, is worked out once. */
  private splitAlong(
    section: PanelSection,
    direction: Direction,
    index: number,
    borders: readonly Border[],
    openLimits: readonly number[] | null,
  ): readonly SectionOption[] {
    const task = this.taskOf(section, direction, index, borders);
    if (task === null) return [];
    const prices = pricesOf(this.instance, this.members, section.film, this.limits);
    const key = JSON.stringify([
      this.taskKey(section, direction, index, borders),
      openLimits,
      task.maxAcross,
      task.maxAlong,
      prices,
      task.settled,
      this.asked.every,
    ]);
    const options = this.known.options.get(key) ?? sectionOptions(task, index, prices, openLimits, this.asked.every);
    this.known.options.set(key, options);
    return options;
  }

  /** Tells apart what splitting a section depends on, whatever film it is split for. */
  private taskKey(section: PanelSection, direction: Direction, index: number, borders: readonly Border[]): string {
    const own = borders
      .filter(({ low, high }) => low === index || high === index)
      .map(({ axis, at, low, stretch, half }) => [axis, at, low === index, stretch.from, stretch.to, half]);
    return JSON.stringify([index, section, direction, own]);
  }

  private directionsOf(section: PanelSection): readonly Direction[] {
    return axesLeft(this.holds, section, this.region).map(directionOf);
  }

  /** What holds and the elevation that this one follows settle for a section split along an axis. */
  private settledFor(section: PanelSection, axis: Axis): Settled | null {
    const { follows } = this.asked;
    const held = settledBy(this.holds, section, axis, this.region);
    if (follows !== undefined) return { ...held, expected: expectedAlong(follows.get(section.id), axis) };
    if (held.seams.length + held.noSeams.length + held.widths.length === 0) return null;
    return { ...held, expected: null };
  }

  /** What to ask the holds of this group about. */
  private feasible(): HoldsFeasible {
    this.plain ??= this.plainFeasibility();
    return this.plain;
  }

  private plainFeasibility(): HoldsFeasible {
    const ways = this.fillWays().flatMap((fills): HoldsWay[] => {
      const sections = effectiveSections(this.source, fills);
      if (sections === null) return [];
      const borders = bordersBetween(sections, this.region, this.members, this.instance.rules);
      const free = this.asking({ holds: [] });
      const taskOf = (index: number, axis: Axis) =>
        free.taskOf(sections[index] as PanelSection, directionOf(axis), index, borders);
      return [{ sections, borders, taskOf }];
    });
    return new HoldsFeasible(this.holds, ways, this.region);
  }

  private taskOf(
    section: PanelSection,
    direction: Direction,
    index: number,
    borders: readonly Border[],
  ): SectionTask | null {
    const key = this.taskKey(section, direction, index, borders);
    const maxAcross = Math.min(this.widest(section.film, this.limits.acrossByFilm), section.maxAcross ?? Infinity);
    const maxAlong = this.widest(section.film, this.limits.alongByFilm);
    let task = this.known.tasks.get(key);
    if (task === undefined) {
      task = sectionTask(
        {
          section,
          axis: splitAxis(direction),
          region: this.region,
          members: this.members,
          rules: this.instance.rules,
          grid: this.grid,
          maxAcross,
          maxAlong,
        },
        index,
        borders,
        this.source.bleed,
      );
      this.known.tasks.set(key, task);
    }
    if (task === null) return null;
    const settled = this.settledFor(section, splitAxis(direction));
    return { ...task, maxAcross, maxAlong, ...(settled === null ? {} : { settled }) };
  }

  private filmOf(section: PanelSection, { elevation }: Member): string {
    return section.film ?? elevation.film;
  }

  /** The least over the films of all members, or of a fill's own film; 0 for a film that no roll offers. */
  private widest(film: string | null, byFilm: ReadonlyMap<string, Ticks>): Ticks {
    const films = film === null ? this.members.map(({ elevation }) => elevation.film) : [film];
    return Math.min(...films.map((id) => byFilm.get(id) ?? 0));
  }
}

/** What a section's seams are held against, where it follows one that is split so; all is apart where that has none. */
function expectedAlong(followed: FollowedSection | undefined, axis: Axis): Expected {
  if (followed === undefined) return { places: [], besides: 0 };
  // Split the other way, the section differs as a whole and in each of its seams.
  return followed.axis === axis
    ? { places: followed.places, besides: 0 }
    : { places: [], besides: 1 + followed.places.length };
}
