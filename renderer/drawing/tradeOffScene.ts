import { scaleLinear } from "d3-scale";
import { formatMoney } from "./fromCore.ts";
import { layoutKey } from "./ids.ts";
import { lengthText, ticksFrom, type Unit } from "./lengths.ts";
import type { PlanLayout } from "./model.ts";
import { type Rectangle, rectangle } from "./rectangle.ts";
import { spread } from "./spread.ts";
import { figureWidth, fitted, textWidth } from "./textWidth.ts";
import { layoutSentence, percent, visibleSeams } from "./words.ts";

/**
 * Layouts weighed against each other: one column per number of visible seams, cheaper ones lower, and from each a strip
 * of wasted film running to the right: its dark part lies between pieces, its light part is what margins, ends, bleed,
 * overlap and openings take. The frontier's staircase joins, from few seams to many, what buys a lower cost.
 */
export interface TradeOffScene {
  readonly width: number;
  readonly height: number;
  readonly columns: readonly Column[];
  readonly ticks: readonly { readonly y: number; readonly text: string }[];
  /** Percent of waste at the end of the longest strip's scale, and its pixels. */
  readonly wasteScale: { readonly percent: number; readonly pixels: number };
  readonly marks: readonly LayoutMark[];
  /** The staircase, one path; "" when fewer than two columns hold a layout of the frontier. */
  readonly stairs: string;
  readonly plot: Rectangle;
}

export interface Column {
  readonly seams: number;
  readonly x: number;
  readonly width: number;
}

export interface LayoutMark {
  readonly key: string;
  readonly id: string;
  readonly standing: "chosen" | "frontier" | "beaten";
  /** The place of its true cost on the column's line. */
  readonly x: number;
  readonly costY: number;
  /** The row it is drawn in: near its cost, apart from its neighbours. */
  readonly y: number;
  /** Pixels of waste that margins, ends, bleed, overlap and openings take, and of gaps between pieces after them. */
  readonly taken: number;
  readonly gaps: number;
  readonly text: string;
  readonly textX: number;
  readonly hit: Rectangle;
  /** Under the strip and its text, so that neither rules nor the staircase run through them. */
  readonly ground: Rectangle;
  readonly says: string;
}

const rowHeight = 24;
const sides = { left: 70, right: 12, top: 30, bottom: 52 } as const;

export interface TradeOffQuestion {
  readonly layouts: readonly PlanLayout[];
  readonly frontier: readonly string[];
  readonly chosen: string;
  readonly currency: string;
  readonly unit: Unit;
}

/**
 * @param room pixels across; the drawing is wider only where the columns would become illegible
 * @param least pixels of height; higher where a column holds many layouts
 */
export function tradeOffScene(question: TradeOffQuestion, room: number, least = 300): TradeOffScene {
  const { layouts, frontier, chosen, currency, unit } = question;
  const counts = [...new Set(layouts.map(visibleSeams))].sort((a, b) => a - b);
  const columnWidth = Math.max(124, (room - sides.left - sides.right) / Math.max(1, counts.length));
  const fullest = Math.max(1, ...counts.map((count) => layouts.filter((one) => visibleSeams(one) === count).length));
  const plotHeight = Math.max(least - sides.top - sides.bottom, fullest * rowHeight + rowHeight);
  const plot = rectangle(sides.left, sides.top, columnWidth * counts.length, plotHeight);
  const columns = counts.map(
    (seams, index): Column => ({ seams, x: sides.left + index * columnWidth + 14, width: columnWidth - 20 }),
  );

  const costs = layouts.map(({ totals }) => totals.cost.total);
  const [low, high] = [Math.min(...costs), Math.max(...costs)];
  const air = high > low ? 0 : Math.max(1, Math.abs(low) * 0.05);
  const cost = scaleLinear()
    .domain([low - air, high + air])
    .nice(5)
    .range([plot.y + plot.height - 12, plot.y + 12]);
  const values = cost.ticks(5);
  const isRound = values.every(Number.isInteger);
  const ticks = values.map((value) => ({
    y: cost(value),
    text: isRound ? roundMoney(value, currency) : formatMoney(value, currency),
  }));

  const most = Math.max(1, ...layouts.map(({ totals }) => totals.wastePercent));
  const wastePercent = Math.ceil(most / 10) * 10;
  // The percentage stands after the longest strip, with the roll where strips of a fair length leave room for both.
  const across = columns[0]?.width ?? 0;
  const leftBy = (words: (layout: PlanLayout) => string): number =>
    across - 18 - Math.max(0, ...layouts.map((layout) => textWidth(words(layout), 12)));
  const withRoll = leftBy((layout) => `${percent(layout.totals.wastePercent)} · ${rollText(layout, unit)}`);
  const pixels =
    withRoll >= 90
      ? withRoll
      : Math.max(
          30,
          leftBy(({ totals }) => percent(totals.wastePercent)),
        );
  const waste = scaleLinear()
    .domain([0, wastePercent])
    .range([0, Math.min(pixels, 220)]);

  const marks: LayoutMark[] = [];
  for (const column of columns) {
    const inColumn = layouts.filter((one) => visibleSeams(one) === column.seams);
    const rows = spread(
      inColumn.map(({ totals }) => cost(totals.cost.total)),
      rowHeight,
      plot.y + 12,
      plot.y + plot.height - 12,
    );
    inColumn.forEach((layout, index) => {
      const y = rows[index] ?? 0;
      const onFrontier = frontier.includes(layout.id);
      const gaps = waste(Math.max(0, layout.wasteBy.gapsAndVoids));
      const taken = Math.max(0, waste(layout.totals.wastePercent) - gaps);
      const textX = column.x + 10 + taken + gaps + 6;
      const text = markText(layout, unit, currency, column.x + column.width - textX);
      marks.push({
        key: layoutKey(layout.id),
        id: layout.id,
        standing: layout.id === chosen ? "chosen" : onFrontier ? "frontier" : "beaten",
        x: column.x,
        costY: cost(layout.totals.cost.total),
        y,
        taken,
        gaps,
        text,
        textX,
        ground: rectangle(column.x + 9, y - 8, textX - column.x - 9 + figureWidth(text, 12) + 4, 16),
        hit: rectangle(column.x - 12, y - rowHeight / 2, column.width + 12, rowHeight),
        says: layoutSentence(layout, { chosen: layout.id === chosen, onFrontier }, currency, unit),
      });
    });
  }
  return {
    width: Math.ceil(plot.x + plot.width + sides.right),
    height: Math.ceil(plot.y + plot.height + sides.bottom),
    columns,
    ticks,
    wasteScale: { percent: wastePercent, pixels: waste(wastePercent) },
    marks,
    stairs: staircase(marks, columns, plot),
    plot,
  };
}

const rollText = ({ rollWidth }: PlanLayout, unit: Unit): string =>
  rollWidth === null ? "mixed" : lengthText(ticksFrom(rollWidth, unit), unit);

/** Waste first, then the roll and the cost where there is room. */
function markText(layout: PlanLayout, unit: Unit, currency: string, room: number): string {
  const wasted = percent(layout.totals.wastePercent);
  const roll = rollText(layout, unit);
  const forms = [
    `${wasted} · ${roll} roll · ${formatMoney(layout.totals.cost.total, currency)}`,
    `${wasted} · ${roll}`,
    wasted,
  ];
  return forms.find((form) => textWidth(form, 12) <= room) ?? fitted(wasted, 12, room);
}

/** Money on an axis needs no pence where all of it is whole. */
const roundMoney = (value: number, currency: string): string =>
  formatMoney(value, currency).replace(/\.00(?=\D|$)/, "");

/** From the fewest seams on, level until a column of the frontier costs less, then down to it. */
function staircase(marks: readonly LayoutMark[], columns: readonly Column[], plot: Rectangle): string {
  const steps: { x: number; y: number }[] = [];
  for (const column of columns) {
    const best = Math.max(
      ...marks.filter((mark) => mark.x === column.x && mark.standing !== "beaten").map((mark) => mark.costY),
    );
    const last = steps.at(-1);
    if (Number.isFinite(best) && (!last || best > last.y)) steps.push({ x: column.x, y: best });
  }
  const [first, ...rest] = steps;
  if (!first || columns.length < 2) return "";
  return `M${first.x} ${first.y}${rest.map(({ x, y }) => `H${x}V${y}`).join("")}H${plot.x + plot.width}`;
}
