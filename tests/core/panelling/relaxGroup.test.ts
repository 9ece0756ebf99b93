import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mirrorGroups } from "../../../core/choosing/mirrorGroups.ts";
import { panellingLimits, widthChoices } from "../../../core/choosing/rollWidths.ts";
import type { Covering, PanellingLimits } from "../../../core/model/covering.ts";
import type { Instance } from "../../../core/model/instance.ts";
import type { Panel } from "../../../core/model/plan.ts";
import type { GroupRelaxation, SplitPrices } from "../../../core/model/relaxation.ts";
import { seededRandom } from "../../../core/model/run.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { relaxGroup } from "../../../core/panelling/relaxGroup.ts";
import { instanceOf } from "../../support/planJob.ts";
import { randomJob } from "../../support/randomJob.ts";

const QUANTUM = 40_000;

/** Prices that never fall with a width: the plain width, or steps at chosen widths. Round numbers, in money per tick. */
function pricesFrom(random: () => number, gap: number): SplitPrices {
  const byWidth = new Float64Array(4000);
  const plain = random() < 0.5 ? 0 : 1;
  const steps = Array.from({ length: 4 }, () => Math.floor(random() * 1600));
  for (let i = 0; i < byWidth.length; i++) {
    byWidth[i] = plain * i * QUANTUM + steps.filter((step) => step <= i).length * 4e6;
  }
  const seam = random() < 0.5 ? 0 : 1e12 * random();
  return {
    byWidth,
    quantum: QUANTUM,
    gap,
    area: random() < 0.5 ? 0 : random(),
    panel: 1e11 * random(),
    visible: seam,
    visibleLength: random() * 1e4,
    penalty: random() * 1e11,
  };
}

const priceOf = (prices: SplitPrices, { across, along }: Panel): number => {
  const rate = prices.byWidth[Math.floor((across + prices.gap) / prices.quantum)] as number;
  return rate * (along + prices.gap) + prices.area * across * along + prices.panel;
};

function leastOf({ ways }: GroupRelaxation, prices: SplitPrices, fills: boolean): number {
  const values = (fills ? ways : ways.slice(0, 1)).map(({ fixed, sections }) => {
    const inSections = sections.map((section) =>
      Math.min(Infinity, ...section.cheapest(prices).map(({ value }) => value)),
    );
    const sum = inSections.reduce((total, value) => total + value, 0);
    return sum + prices.visible * fixed.visible + prices.visibleLength * fixed.visibleLength;
  });
  return Math.min(...values);
}

/** What a covering really comes to at the same prices, on all copies; fills for nothing. */
function realCost(instance: Instance, coverings: Covering, prices: SplitPrices): number {
  let cost = 0;
  for (const elevation of instance.elevations) {
    const panels = coverings.panels.filter((panel) => panel.elevation === elevation.id && panel.role === "panel");
    cost += panels.reduce((sum, panel) => sum + priceOf(prices, panel), 0) * (panels.length > 0 ? elevation.count : 0);
  }
  const { visibleSeams, visibleLength, penalties } = coverings.measures;
  return cost + prices.visible * visibleSeams + prices.visibleLength * visibleLength + prices.penalty * penalties;
}

const run = { random: seededRandom(1), stop: () => false, report: () => {}, work: null };

function coversOf(
  instance: Instance,
  group: ReturnType<typeof mirrorGroups>[number],
  limits: PanellingLimits,
): readonly Covering[] {
  const covered = coverGroup(instance, group.source, group.mirrors, limits, run);
  return "coverings" in covered ? covered.coverings : [];
}

describe("a relaxation", () => {
  test("is never dearer than any covering found, at any prices, coarse or fine", () => {
    let compared = 0;
    fc.assert(
      fc.property(randomJob, fc.nat(1e6), (data, seed) => {
        const instance = instanceOf(data);
        const random = seededRandom(seed);
        for (const choice of widthChoices(instance)) {
          if (choice.rollWidth === null) continue;
          const limits = panellingLimits(instance, choice, null);
          for (const group of mirrorGroups(instance.elevations)) {
            const relaxed = relaxGroup(instance, group.source, group.mirrors, limits);
            if (relaxed === null) continue;
            const coverings = coversOf(instance, group, limits);
            const counts = [group.source, ...group.mirrors].reduce((sum, { count }) => sum + count, 0);
            for (let fine = 0; fine < 2; fine++) {
              const alone = pricesFrom(random, instance.rules.cutGap);
              const all: SplitPrices = {
                ...alone,
                byWidth: alone.byWidth.map((rate) => counts * rate),
                area: counts * alone.area,
                panel: counts * alone.panel,
              };
              for (const covering of coverings) {
                const filled = covering.panels.some(({ role }) => role === "fill");
                const real = realCost(instance, covering, alone);
                const least = leastOf(relaxed, all, filled);
                expect(least).toBeLessThanOrEqual(real * (1 + 1e-9) + 1);
                compared++;
              }
              for (const { sections } of relaxed.ways) for (const section of sections) section.refine();
            }
          }
        }
      }),
      { seed: 20261125, numRuns: 25 },
    );
    expect(compared).toBeGreaterThan(200);
  });
});
