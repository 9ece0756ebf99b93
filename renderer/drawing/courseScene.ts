import { scaleLinear, scaleSqrt } from "d3-scale";
import { gapFigure } from "../../shared/standing.ts";
import { short } from "./frame.ts";
import { formatMoney } from "./fromCore.ts";
import { type Rectangle, rectangle } from "./rectangle.ts";
import { spread } from "./spread.ts";
import { textWidth } from "./textWidth.ts";

/** How the search stood at one moment. */
export interface CourseStep {
  readonly seconds: number;
  readonly cost: number;
  readonly bound: number;
  readonly gapPercent: number;
  readonly proven: boolean;
}

/**
 * The course of a search, drawn as a descent to the ground: the cost goes down in steps, the ground below it is what no
 * such plan goes under and rises as more is known, and what lies between at the end is dimensioned.
 */
export interface CourseScene {
  readonly width: number;
  readonly height: number;
  readonly plot: Rectangle;
  readonly costPath: string;
  readonly groundLine: string;
  /** The ground line closed along the foot of the plot. */
  readonly ground: string;
  /** The cost and the bound as they stand last. */
  readonly end: { readonly x: number; readonly cost: number; readonly ground: number };
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  /** Words at the right, top to bottom; none in the small form. */
  readonly words: readonly { readonly part: "cost" | "gap" | "bound"; readonly y: number; readonly text: string }[];
  /** What the first layout cost, above its line; null where it is the last too, or has no room. */
  readonly first: { readonly x: number; readonly y: number; readonly text: string } | null;
  /** Dimension line between cost and ground with its two arrow ends; "" where both coincide. */
  readonly gapLine: string;
  readonly gapArrows: string;
}

export interface CourseQuestion {
  readonly steps: readonly CourseStep[];
  /** How long the search has run. */
  readonly seconds: number;
  readonly currency: string;
}

/** Ends of the time axis, in seconds: it grows from one to the next, so that the drawing is still most of the time. */
const spans = [
  0.5, 1, 2, 3, 4, 6, 8, 9, 10, 12, 15, 20, 25, 30, 35, 40, 50, 60, 75, 90, 120, 150, 180, 240, 300, 360, 480, 600, 660,
  900, 1200, 1800, 2400, 3000, 3600,
] as const;
/** What the axis names, besides its end. */
const marks = [0, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800] as const;
const textSize = 12;
const lineHeight = 16;
const arrow = 6;

export const timeText = (seconds: number): string => (seconds < 60 ? `${seconds} s` : `${seconds / 60} min`);

/** The last step's gap in words. */
export const gapLeft = ({ proven, gapPercent }: CourseStep): string =>
  proven ? "proven least cost" : `at most ${gapFigure(gapPercent)} % could be saved`;

/**
 * @param width pixels
 * @param height pixels
 * @param lettered with words and time below; without them the lines alone, for a small place
 */
export function courseScene(question: CourseQuestion, width: number, height: number, lettered: boolean): CourseScene {
  const { steps, currency } = question;
  const last = steps.at(-1);
  const texts = last === undefined ? [] : wordsOf(last, currency, lettered, width);
  const gutter = texts.length === 0 ? 6 : 26 + Math.max(...texts.map(({ text }) => textWidth(text, textSize)));
  const plot = lettered
    ? rectangle(1, 18, Math.max(40, width - gutter - 2), height - 18 - 20)
    : rectangle(1, 3, width - gutter - 2, height - 6);
  const bottom = plot.y + plot.height;
  const seconds = Math.max(question.seconds, last?.seconds ?? 0);
  const span = spans.find((end) => end >= seconds) ?? seconds;
  // The root of the time gives the first seconds, in which most happens, the most room.
  const time = scaleSqrt()
    .domain([0, span])
    .range([plot.x, plot.x + plot.width]);
  const high = Math.max(...steps.map(({ cost }) => cost));
  const low = Math.min(...steps.map(({ bound }) => bound));
  const level = scaleLinear()
    .domain(high > low ? [low, high] : [low - 1, low + 1])
    .range([bottom - Math.min(12, plot.height / 3), plot.y + 1]);

  const now = time(seconds);
  const stairs = (value: (step: CourseStep) => number): string =>
    steps
      .map((step, place) => {
        const [x, y] = [short(time(step.seconds)), short(level(value(step)))];
        return place === 0 ? `M${x} ${y}` : `H${x}V${y}`;
      })
      .join("") + (steps.length === 0 ? "" : `H${short(now)}`);
  const groundLine = stairs(({ bound }) => bound);
  const begin = steps[0];
  const end =
    last === undefined
      ? { x: plot.x, cost: bottom, ground: bottom }
      : { x: now, cost: level(last.cost), ground: level(last.bound) };
  const firstText = begin === undefined ? "" : formatMoney(begin.cost, currency);
  return {
    width,
    height,
    plot,
    costPath: stairs(({ cost }) => cost),
    groundLine,
    ground: begin === undefined ? "" : `${groundLine}V${short(bottom)}H${short(time(begin.seconds))}Z`,
    end,
    ticks: lettered ? ticksOf(span, time) : [],
    words: placed(texts, end, plot),
    first:
      lettered && begin !== undefined && begin.cost !== last?.cost && textWidth(firstText, textSize) < plot.width / 2
        ? { x: time(begin.seconds), y: level(begin.cost) - 6, text: firstText }
        : null,
    ...gapDimension(end, plot.x + plot.width + 12, lettered && last !== undefined && !last.proven),
  };
}

interface Words {
  readonly part: "cost" | "gap" | "bound";
  readonly text: string;
}

function wordsOf(last: CourseStep, currency: string, lettered: boolean, width: number): Words[] {
  if (!lettered) return [];
  const [cost, bound] = [formatMoney(last.cost, currency), formatMoney(last.bound, currency)];
  const wide: Words[] = [
    { part: "cost", text: `${cost} best found` },
    { part: "gap", text: gapLeft(last) },
    { part: "bound", text: `${bound} at the least` },
  ];
  const narrow: Words[] = [
    { part: "cost", text: cost },
    { part: "gap", text: last.proven ? "proven" : `≤ ${last.gapPercent.toFixed(1)} %` },
    { part: "bound", text: bound },
  ];
  const words = width >= 520 ? wide : narrow;
  // Cost and bound are one where nothing is left between them.
  return last.proven ? words.filter(({ part }) => part !== "bound") : words;
}

/** Each beside what it tells of, moved apart where they would run into each other. */
function placed(texts: readonly Words[], end: CourseScene["end"], plot: Rectangle): CourseScene["words"] {
  const wanted = { cost: end.cost, gap: (end.cost + end.ground) / 2, bound: end.ground };
  const places = spread(
    texts.map(({ part }) => wanted[part]),
    lineHeight,
    plot.y - 6,
    plot.y + plot.height + 6,
  );
  return texts.map((words, place) => ({ ...words, y: places[place] ?? 0 }));
}

function ticksOf(span: number, time: (seconds: number) => number): CourseScene["ticks"] {
  const ticks: { x: number; text: string }[] = [];
  // From the end, which always has its mark, back to the start; where that is near, other marks give way.
  let next = Number.POSITIVE_INFINITY;
  for (const seconds of [span, ...marks.toReversed()]) {
    if (seconds > span || next - time(seconds) < 44) continue;
    next = time(seconds);
    ticks.unshift({ x: next, text: timeText(seconds) });
  }
  return ticks;
}

/** Arrow ends point at cost and ground from between them, or from outside where they stand too close. */
function gapDimension(end: CourseScene["end"], x: number, shown: boolean): Pick<CourseScene, "gapLine" | "gapArrows"> {
  if (!shown || end.ground - end.cost < 0.5) return { gapLine: "", gapArrows: "" };
  const [top, foot] = [short(end.cost), short(end.ground)];
  const inside = end.ground - end.cost >= 2 * arrow + 6;
  const tail = inside ? 0 : arrow + 4;
  const way = inside ? 1 : -1;
  return {
    gapLine: [
      `M${short(end.x + 4)} ${top}H${short(x + 4)}`,
      `M${short(end.x + 4)} ${foot}H${short(x + 4)}`,
      `M${short(x)} ${short(end.cost - tail)}V${short(end.ground + tail)}`,
    ].join(""),
    gapArrows: `M${short(x)} ${top}l-2.4 ${way * arrow}h4.8ZM${short(x)} ${foot}l-2.4 ${-way * arrow}h4.8Z`,
  };
}

/** The whole drawing in a sentence. */
export function courseSentence({ steps, currency }: CourseQuestion): string {
  const [first, last] = [steps[0], steps.at(-1)];
  if (first === undefined || last === undefined) return "No layout yet";
  const found = ({ seconds, cost }: CourseStep): string =>
    `${formatMoney(cost, currency)} after ${seconds.toFixed(1)} s`;
  const costs = first.cost === last.cost ? found(first) : `${found(first)}, ${found(last)}`;
  return `Cost of the best layout: ${costs}; bound ${formatMoney(last.bound, currency)}: ${gapLeft(last)}`;
}
