import type { PlanFile, PlanLayout } from "../../shared/planFile.ts";
import type { Box } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Difference, Dimension, FoundSection, Layout, Plan, Shortfall } from "./plan.ts";

/** The parts of a plan that came after its first version: each is left out of the file where the plan has none. */

type Convert = (length: number) => number;
type LayoutParts = Pick<Layout, "sections" | "dimensions" | "fitting" | "differences">;
type FileParts = Pick<PlanLayout, "sections" | "dimensions" | "fitting" | "differences">;

export function layoutPartsToFile(layout: LayoutParts, to: (ticks: Ticks) => number): FileParts {
  const { sections, dimensions, fitting, differences } = layout;
  return {
    ...(sections && { sections: sections.map((section) => ({ ...section, box: tuple(section.box, to) })) }),
    ...(dimensions && { dimensions: dimensions.map((dimension) => dimensionWith(dimension, to)) }),
    ...(fitting && { fitting: fitting.map((step) => ({ ...step })) }),
    ...(differences && { differences: differences.map((difference) => differenceWith(difference, to)) }),
  };
}

export function layoutPartsFromFile(file: FileParts, from: Convert): LayoutParts {
  const { sections, dimensions, fitting, differences } = file;
  return {
    ...(sections && {
      sections: sections.map(
        ({ elevation, id, box, direction, why }): FoundSection => ({
          elevation,
          id,
          box: boxOf(box, from),
          direction,
          why,
        }),
      ),
    }),
    ...(dimensions && { dimensions: dimensions.map((dimension) => dimensionWith(dimension, from)) }),
    ...(fitting && { fitting: fitting.map(({ elevation, item, role, why }) => ({ elevation, item, role, why })) }),
    ...(differences && { differences: differences.map((difference) => differenceWith(difference, from)) }),
  };
}

/** The shortfalls of a plan, in the file's unit or in ticks. */
export function shortfallsWith(shortfalls: readonly Shortfall[], convert: Convert): NonNullable<PlanFile["shortfalls"]>;
export function shortfallsWith(shortfalls: readonly Shortfall[], convert: Convert): NonNullable<Plan["shortfalls"]>;
export function shortfallsWith(shortfalls: readonly Shortfall[], convert: Convert) {
  return shortfalls.map(({ elevation, section, rollWidth, direction, panels, short, choices }) => ({
    elevation,
    section,
    rollWidth: convert(rollWidth),
    direction,
    panels,
    short: convert(short),
    choices: choices.map((choice) => ({
      way: choice.way,
      says: choice.says,
      film: choice.film,
      rollWidth: convert(choice.rollWidth),
      panels: choice.panels,
      seamLength: convert(choice.seamLength),
      filmArea: choice.filmArea,
      wastePercent: choice.wastePercent,
      cost: choice.cost,
    })),
  }));
}

const dimensionWith = ({ elevation, name, axis, from, to, slack }: Dimension, convert: Convert) => ({
  elevation,
  name,
  axis,
  from: convert(from),
  to: convert(to),
  slack: convert(slack),
});

const differenceWith = ({ elevation, follows, section, axis, at, says }: Difference, convert: Convert) => ({
  elevation,
  follows,
  section,
  axis,
  at: at === null ? null : convert(at),
  says,
});

type Tuple = [number, number, number, number];

const tuple = ({ x0, y0, x1, y1 }: Box, to: Convert): Tuple => [to(x0), to(y0), to(x1), to(y1)];
const boxOf = ([x0, y0, x1, y1]: Tuple, from: Convert): Box => ({
  x0: from(x0),
  y0: from(y0),
  x1: from(x1),
  y1: from(y1),
});
