import { short } from "./frame.ts";
import { cutKey, pieceKey } from "./ids.ts";
import { TICKS_PER, type Ticks, ticksFrom, type Unit } from "./lengths.ts";
import type { Film, LoosePiece, PlanLayout, PlanPanel, PlanPiece, PlanRoll, Point, StockEntry } from "./model.ts";
import { boxInPolygon, middleOf, type Spot } from "./polygon.ts";
import { type Rectangle, rectangle } from "./rectangle.ts";
import { cutSentence, pieceSentence } from "./words.ts";

/**
 * One load on the screen: its length runs to the right (roll y), its width downward (roll x), as seen when the roll is
 * turned a quarter clockwise, so nothing is mirrored. Pixels throughout.
 */
export interface RollScene {
  readonly width: number;
  readonly height: number;
  /** Pixels per tick. */
  readonly scale: number;
  /** Screen place of roll x = 0, y = 0. */
  readonly left: number;
  readonly top: number;
  /** The used film over its full width. */
  readonly body: Rectangle;
  readonly leader: Rectangle;
  readonly trailer: Rectangle;
  /** Screen heights of the two lines between which it can be printed. */
  readonly margins: readonly [number, number];
  readonly cuts: readonly CutShape[];
  readonly pieces: readonly PieceShape[];
  readonly rest: Rest | null;
  readonly used: Ticks;
  readonly fullWidth: Ticks;
}

export interface CutShape {
  readonly key: string;
  readonly number: number;
  readonly start: Ticks;
  readonly length: Ticks;
  readonly box: Rectangle;
  readonly says: string;
}

export interface PieceShape {
  readonly key: string;
  readonly piece: PlanPiece;
  readonly panel: PlanPanel | null;
  readonly box: Rectangle;
  /** The true outline of a loose piece, where it is known. */
  readonly path: string | null;
  /** Its corners on the screen, with `path`. */
  readonly corners: readonly Spot[];
  /** The small triangle at the edge that is up at the vehicle; "" where there is no room. */
  readonly upMark: string;
  readonly markBox: Rectangle;
  /** 1 to 6; one tint per elevation. 0 for loose pieces. */
  readonly tint: number;
  readonly says: string;
}

/** What stays on the roll after this load. */
export interface Rest {
  readonly left: Ticks;
  readonly stock: string | null;
}

export const rollMargins = { left: 44, right: 120, top: 34, bottom: 82 } as const;

type Way = "right" | "left" | "up" | "down";

/** Turned counter-clockwise on the roll is turned counter-clockwise on the screen. */
const turnOnce: Readonly<Record<Way, Way>> = { right: "up", up: "left", left: "down", down: "right" };

/** Which way on the screen the top of a piece points: a vertical panel's along the roll, a horizontal one's across it. */
export function upWay(direction: "vertical" | "horizontal" | null, turn: PlanPiece["turn"]): Way {
  let way: Way = direction === "horizontal" ? "up" : "right";
  for (let done = 0; done < turn; done += 90) way = turnOnce[way];
  return way;
}

/** What is left of a stock entry, or of a new roll of known length, once this load and those before it are done. */
export function restOf(
  load: PlanRoll,
  layout: PlanLayout,
  films: readonly Film[],
  stock: readonly StockEntry[] | undefined,
  unit: Unit,
): Rest | null {
  if (load.stock === null) {
    const whole = films.find((film) => film.id === load.film)?.rollLength ?? null;
    return whole === null ? null : { left: whole - ticksFrom(load.used, unit), stock: null };
  }
  const entry = stock?.find((one) => one.id === load.stock);
  if (!entry) return null;
  const upTo = layout.rolls.findIndex((roll) => roll.id === load.id);
  const gone = layout.rolls
    .filter((roll, index) => roll.stock === load.stock && index <= upTo)
    .reduce((sum, roll) => sum + ticksFrom(roll.used, unit), 0);
  return { left: entry.length - gone, stock: load.stock };
}

export interface RollQuestion {
  readonly layout: PlanLayout;
  readonly films: readonly Film[];
  readonly load: PlanRoll;
  readonly unit: Unit;
  readonly stock?: readonly StockEntry[] | undefined;
  readonly pieces?: readonly LoosePiece[] | undefined;
}

/** The whole load, every piece of it; `inView` picks what is worth drawing. */
export function rollScene(question: RollQuestion, pixelsPerUnit: number): RollScene {
  const { layout, films, load, unit } = question;
  const scale = pixelsPerUnit / TICKS_PER[unit];
  const { left, top } = rollMargins;
  const used = ticksFrom(load.used, unit);
  const fullWidth = ticksFrom(load.width, unit);
  const margin = films.find((film) => film.id === load.film)?.edgeMargin ?? 0;
  const panels = new Map(layout.panels.map((panel) => [panel.id, panel]));
  const loose = new Map(question.pieces?.map((piece) => [piece.id, piece]) ?? []);
  const tints = new Map<string, number>();
  for (const panel of layout.panels) if (!tints.has(panel.elevation)) tints.set(panel.elevation, (tints.size % 6) + 1);
  const at = (x: Ticks, y: Ticks, across: Ticks, along: Ticks): Rectangle =>
    rectangle(left + y * scale, top + x * scale, along * scale, across * scale);

  const cuts: CutShape[] = [];
  const pieces: PieceShape[] = [];
  for (const [index, cut] of load.cuts.entries()) {
    const start = ticksFrom(cut.start, unit);
    const length = ticksFrom(cut.length, unit);
    const number = index + 1;
    cuts.push({
      key: cutKey(load.id, number),
      number,
      start,
      length,
      box: at(0, start, fullWidth, length),
      says: cutSentence(cut, load, number, unit),
    });
    for (const piece of cut.pieces) {
      const panel = panels.get(piece.id) ?? null;
      const x = ticksFrom(piece.x, unit);
      const y = start + ticksFrom(piece.y, unit);
      const box = at(x, y, ticksFrom(piece.across, unit), ticksFrom(piece.along, unit));
      const own = loose.get(piece.id);
      const corners = own ? placedOutline(own.outline, piece.turn, box, scale) : [];
      const mark = upMark(box, corners, upWay(panel?.direction ?? null, piece.turn));
      pieces.push({
        key: pieceKey(piece.id, piece.copy),
        piece,
        panel,
        box,
        path: own ? `M${corners.map(({ x: px, y: py }) => `${short(px)} ${short(py)}`).join("L")}Z` : null,
        corners,
        upMark: mark.path,
        markBox: mark.box,
        tint: panel ? (tints.get(panel.elevation) ?? 1) : 0,
        says: pieceSentence(piece, cut, load, number, unit),
      });
    }
  }
  const firstStart = cuts[0]?.start ?? used;
  const last = cuts.at(-1);
  const lastEnd = last ? last.start + last.length : used;
  const body = at(0, 0, fullWidth, used);
  return {
    width: Math.ceil(left + used * scale + rollMargins.right),
    height: Math.ceil(top + fullWidth * scale + rollMargins.bottom),
    scale,
    left,
    top,
    body,
    leader: at(0, 0, fullWidth, firstStart),
    trailer: at(0, lastEnd, fullWidth, used - lastEnd),
    margins: [top + margin * scale, top + (fullWidth - margin) * scale],
    cuts,
    pieces,
    rest: restOf(load, layout, films, question.stock, unit),
    used,
    fullWidth,
  };
}

/** A polygon in its own axes, turned, moved into the box it takes on the roll, and laid down on the screen. */
function placedOutline(outline: readonly Point[], turn: PlanPiece["turn"], box: Rectangle, scale: number): Spot[] {
  const turnedPoints = outline.map(({ x, y }) => {
    if (turn === 90) return { x: -y, y: x };
    if (turn === 180) return { x: -x, y: -y };
    if (turn === 270) return { x: y, y: -x };
    return { x, y };
  });
  const lowX = Math.min(...turnedPoints.map(({ x }) => x));
  const lowY = Math.min(...turnedPoints.map(({ y }) => y));
  return turnedPoints.map(({ x, y }) => ({ x: box.x + (y - lowY) * scale, y: box.y + (x - lowX) * scale }));
}

/** At the edge that is up; in the midst of a piece with an outline of its own, where that edge may be a mere point. */
function upMark(box: Rectangle, corners: readonly Spot[], way: Way): { path: string; box: Rectangle } {
  const size = Math.min(6, box.width / 3, box.height / 3);
  const none = { path: "", box: rectangle(box.x, box.y, 0, 0) };
  if (size < 2.5) return none;
  const level = way === "left" || way === "right";
  const [width, height] = level ? [size, 2 * size] : [2 * size, size];
  const spot = corners.length > 0 ? middleOf(corners) : edgeSpot(box, way, size);
  const mark = rectangle(spot.x - width / 2, spot.y - height / 2, width, height);
  if (corners.length > 0 && !boxInPolygon(corners, mark)) return none;
  const [x0, y0, x1, y1] = [short(mark.x), short(mark.y), short(mark.x + width), short(mark.y + height)];
  const [x, y] = [short(spot.x), short(spot.y)];
  const paths: Readonly<Record<Way, string>> = {
    right: `M${x1} ${y}L${x0} ${y0}V${y1}Z`,
    left: `M${x0} ${y}L${x1} ${y0}V${y1}Z`,
    up: `M${x} ${y0}L${x0} ${y1}H${x1}Z`,
    down: `M${x} ${y1}L${x0} ${y0}H${x1}Z`,
  };
  return { path: paths[way], box: mark };
}

/** The middle of a mark that touches the edge on that side from within. */
function edgeSpot({ x, y, width, height }: Rectangle, way: Way, size: number): Spot {
  const inward = 2 + size / 2;
  if (way === "right") return { x: x + width - inward, y: y + height / 2 };
  if (way === "left") return { x: x + inward, y: y + height / 2 };
  if (way === "up") return { x: x + width / 2, y: y + inward };
  return { x: x + width / 2, y: y + height - inward };
}

/** A stretch of the drawing from left to right, pixels. */
export interface View {
  readonly from: number;
  readonly to: number;
}

export const inView = ({ x, width }: Rectangle, view: View): boolean => x <= view.to && x + width >= view.from;

/**
 * The stretch to draw for a scroll position: whole steps of the visible width with one more on each side, so that it
 * changes seldom while scrolling and the edge is never seen empty.
 */
export function viewFor(scrollLeft: number, visible: number): View {
  const step = Math.max(1, visible);
  const first = Math.floor(scrollLeft / step);
  return { from: (first - 1) * step, to: (first + 3) * step };
}

/** Pixels per unit at which a load shows whole if that leaves its width legible, else at a comfortable width. */
export function fitRoll(load: PlanRoll, width: number, least = 72, most = 200): number {
  const whole = (width - rollMargins.left - rollMargins.right) / load.used;
  return Math.min(Math.max(whole, least / load.width), most / load.width);
}
