/**
 * The cheapest way to part and panel a small elevation, found by trying everything on a grid of whole inches: every
 * parting by cuts from side to side along its lines, both directions of every part, every set of seams. What the program's
 * own search is held against; it shares nothing with it.
 *
 * Lengths are whole inches and half overlaps are too, so that all marks lie on the grid. Between two marks the cost of a
 * split is linear in the place of a seam, so no finer place is cheaper: a search that places seams freely can only tie.
 */
export interface PlainElevation {
  readonly width: number;
  readonly height: number;
  /** An opening that leaves at least an inch of film on each side and keeps an inch from every line; null for none. */
  readonly opening: PlainBox | null;
  readonly lines: readonly PlainLine[];
  readonly zones: readonly { readonly box: PlainBox; readonly rule: "never" | "avoid" }[];
  readonly bleed: number;
  readonly bleedOfOpenings: number;
  /** Even numbers. */
  readonly overlap: number;
  readonly trimOverlap: number;
  readonly printable: number;
  readonly longest: number;
  /** Money for a square inch of window, an inch of visible seam, a panel, an avoided zone met. */
  readonly prices: { readonly area: number; readonly seam: number; readonly panel: number; readonly avoid: number };
}

/** Left, bottom, right, top. */
export type PlainBox = readonly [number, number, number, number];

export interface PlainLine {
  readonly axis: "x" | "y";
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly kind: "gap" | "moulding" | "bodyLine" | "colourEdge";
  /** Even; for gaps and mouldings. */
  readonly width: number;
  readonly mustSplit: boolean;
}

export interface PlainAnswer {
  readonly cost: number;
  readonly parts: readonly PlainBox[];
}

/** The least cost, or null where nothing covers the elevation. Tries all partings, cheapest combination of each. */
export function plainSections(job: PlainElevation): PlainAnswer | null {
  let best: PlainAnswer | null = null;
  const known = new Map<string, PartSplits>();
  for (const parts of partings(job)) {
    const cost = costOfParting(job, parts, best?.cost ?? Infinity, known);
    if (cost !== null && (best === null || cost < best.cost)) best = { cost, parts };
  }
  return best;
}

/** Every way to cut the box from side to side, again and again, along places of its lines; the whole among them. */
export function partings({ width, height, lines }: PlainElevation): PlainBox[][] {
  const places = (axis: "x" | "y", end: number) =>
    [...new Set(lines.filter((line) => line.axis === axis).map(({ at }) => at))].filter((at) => at > 0 && at < end);
  const [xs, ys] = [places("x", width), places("y", height)];
  const known = new Map<string, PlainBox[][]>();
  const waysOf = (box: PlainBox): PlainBox[][] => {
    const seen = known.get(box.join());
    if (seen !== undefined) return seen;
    const [x0, y0, x1, y1] = box;
    const ways = new Map<string, PlainBox[]>([[box.join(), [box]]]);
    const halves: [PlainBox, PlainBox][] = [
      ...xs
        .filter((at) => at > x0 && at < x1)
        .map((at): [PlainBox, PlainBox] => [
          [x0, y0, at, y1],
          [at, y0, x1, y1],
        ]),
      ...ys
        .filter((at) => at > y0 && at < y1)
        .map((at): [PlainBox, PlainBox] => [
          [x0, y0, x1, at],
          [x0, at, x1, y1],
        ]),
    ];
    for (const [one, other] of halves) {
      for (const a of waysOf(one)) {
        for (const b of waysOf(other)) {
          const all = [...a, ...b].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
          ways.set(all.join(" "), all);
        }
      }
    }
    const list = [...ways.values()];
    known.set(box.join(), list);
    return list;
  };
  return waysOf([0, 0, width, height]);
}

type Axis = "x" | "y";

/** A part or window as seen along an axis: u across its lines, v along them. */
const turned = ([x0, y0, x1, y1]: PlainBox, axis: Axis): PlainBox =>
  axis === "x" ? [x0, y0, x1, y1] : [y0, x0, y1, x1];

interface Border {
  readonly axis: Axis;
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly cut: boolean;
  readonly half: number;
}

/** One way to panel one part. */
interface PlainSplit {
  readonly axis: Axis;
  readonly windows: readonly PlainBox[];
  readonly cost: number;
}

/** Sums of money may differ in their last digits by the order in which they were added. */
const A_LITTLE = 1e-9;

/** Least cost of one parting; null where there is none or none below a cost. `known`: parts looked at in other partings. */
function costOfParting(
  job: PlainElevation,
  parts: readonly PlainBox[],
  below: number,
  known: Map<string, PartSplits>,
): number | null {
  const borders = bordersOf(job, parts);
  let fixed = 0;
  for (const border of borders) {
    if (!border.cut) fixed += job.prices.seam * (border.to - border.from);
    // Windows share at least this much all along the border, so a zone met by it is met whatever the panels.
    const least = { u0: border.at - border.half, u1: border.at + border.half, v0: border.from, v1: border.to };
    const { never, avoided } = metZones(job, border, [least]);
    if (never) return null;
    fixed += avoided * job.prices.avoid;
  }
  const splits = parts.map((part, index) => {
    const own = borders.filter(({ low, high }) => low === index || high === index);
    return (["x", "y"] as const).map((axis) => {
      const key = JSON.stringify([
        axis,
        part,
        own.map(({ axis: side, at, from, to, half }) => [side, at, from, to, half]),
      ]);
      const found = known.get(key) ?? new PartSplits(job, axis, part, own);
      known.set(key, found);
      return found;
    });
  });
  const least = splits.map((ways) => Math.min(...ways.map((way) => way.least)));
  const lowest = least.reduce((sum, cost) => sum + cost, fixed);
  if (lowest === Infinity || lowest >= below) return null;
  // What windows that reach farther than they must past a border add; mostly nothing, and then the cheapest will do.
  const cheapest = splits.map((ways, i) => ways.flatMap((way) => way.upTo(least[i] as number, 1))[0] as PlainSplit);
  const more = facingCost(job, borders, cheapest);
  if (more === 0) return lowest;
  // Else every combination that might still be better is tried.
  const slack = Math.min(lowest + more, below) - lowest;
  const choices = splits.map((ways, i) =>
    ways.flatMap((way) => way.upTo((least[i] as number) + slack, Infinity)).sort((a, b) => a.cost - b.cost),
  );
  let best = Math.min(lowest + more, below);
  const picks: PlainSplit[] = [];
  const choose = (index: number, cost: number): void => {
    if (index === parts.length) {
      best = Math.min(best, cost + facingCost(job, borders, picks));
      return;
    }
    const rest = least.slice(index + 1).reduce((sum, one) => sum + one, 0);
    for (const split of choices[index] as readonly PlainSplit[]) {
      if (cost + split.cost + rest >= best) return;
      picks[index] = split;
      choose(index + 1, cost + split.cost);
    }
  };
  choose(0, fixed);
  return best < Infinity ? best : null;
}

function bordersOf(job: PlainElevation, parts: readonly PlainBox[]): Border[] {
  const borders: Border[] = [];
  for (const axis of ["x", "y"] as const) {
    for (const [low, a] of parts.entries()) {
      for (const [high, b] of parts.entries()) {
        const [p, q] = [turned(a, axis), turned(b, axis)];
        const [from, to] = [Math.max(p[1], q[1]), Math.min(p[3], q[3])];
        if (p[2] !== q[0] || from >= to) continue;
        borders.push({ axis, at: p[2], from, to, low, high, ...judge(job, axis, p[2], from, to) });
      }
    }
  }
  return borders;
}

/** What a seam on a line is: cut (in a gap or at a moulding) or not, and half of what its panels share. */
function judge(job: PlainElevation, axis: Axis, at: number, from: number, to: number): { cut: boolean; half: number } {
  const spanning = job.lines.filter(
    (line) => line.axis === axis && line.at === at && line.from <= from && line.to >= to,
  );
  const cuts = spanning.filter(({ kind }) => kind === "gap" || kind === "moulding");
  const shared = cuts.length > 0 ? Math.max(job.trimOverlap, ...cuts.map(({ width }) => width)) : job.overlap;
  return { cut: cuts.length > 0, half: shared / 2 };
}

interface Band {
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
}

/** Zones that a seam meets: by its line when it is cut, by what its panels share otherwise. */
function metZones(
  { zones }: PlainElevation,
  { axis, at, from, to, cut }: { axis: Axis; at: number; from: number; to: number; cut: boolean },
  bands: readonly Band[],
): { never: boolean; avoided: number } {
  let [never, avoided] = [false, 0];
  for (const { box, rule } of zones) {
    const [u0, v0, u1, v1] = turned(box, axis);
    const met = cut
      ? at > u0 && at < u1 && from < v1 && to > v0
      : bands.some((band) => band.u0 < u1 && band.u1 > u0 && band.v0 < v1 && band.v1 > v0);
    if (!met) continue;
    if (rule === "never") never = true;
    else avoided++;
  }
  return { never, avoided };
}

/** What the windows facing each other add to the least that borders share; Infinity where a zone forbids it. */
function facingCost(job: PlainElevation, borders: readonly Border[], picks: readonly PlainSplit[]): number {
  let cost = 0;
  for (const border of borders) {
    const { axis, at, from, to, half } = border;
    const facing = (split: PlainSplit, end: 0 | -1) =>
      split.axis === axis ? [split.windows.at(end) as PlainBox] : split.windows;
    const bands: Band[] = [];
    for (const a of facing(picks[border.low] as PlainSplit, -1)) {
      for (const b of facing(picks[border.high] as PlainSplit, 0)) {
        const [p, q] = [turned(a, axis), turned(b, axis)];
        const [v0, v1] = [Math.max(p[1], q[1], from), Math.min(p[3], q[3], to)];
        if (v0 < v1) bands.push({ u0: q[0], u1: p[2], v0, v1 });
      }
    }
    const really = metZones(job, border, bands);
    if (really.never) return Infinity;
    const least = metZones(job, border, [{ u0: at - half, u1: at + half, v0: from, v1: to }]);
    cost += (really.avoided - least.avoided) * job.prices.avoid;
  }
  return cost;
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);

interface Node {
  readonly at: number;
  readonly lo: number;
  readonly hi: number;
  readonly seam: boolean;
  readonly cost: number;
}

/** The splits of one part across one axis. Here u runs across the panels and v along them. */
class PartSplits {
  private readonly job: PlainElevation;
  private readonly axis: Axis;
  private readonly part: PlainBox;
  private readonly borders: readonly Border[];
  private readonly lengths = new Map<string, readonly [number, number]>();
  /** Begin of the part, its possible seams, its end. */
  private readonly nodes: readonly Node[];
  private readonly demanded: readonly number[];
  /** By node, the least cost of all that comes after it. */
  private readonly onward: number[];

  constructor(job: PlainElevation, axis: Axis, part: PlainBox, borders: readonly Border[]) {
    this.job = job;
    this.axis = axis;
    this.part = turned(part, axis);
    this.borders = borders;
    const [u0, v0, u1, v1] = this.part;
    const rows = range(v0, v1);
    const lo = Math.min(...rows.flatMap((row) => this.ends(row, "across").map(([low]) => low)));
    const hi = Math.max(...rows.flatMap((row) => this.ends(row, "across").map(([, high]) => high)));
    this.nodes = [
      { at: u0, lo, hi: lo, seam: false, cost: 0 },
      ...range(u0 + 1, u1).flatMap((at) => this.seamAt(at) ?? []),
      { at: u1, lo: hi, hi, seam: false, cost: 0 },
    ];
    this.demanded = range(u0 + 1, u1).filter((at) => this.demands(at));
    this.onward = this.nodes.map(() => Infinity);
    this.onward[this.nodes.length - 1] = 0;
    for (let i = this.nodes.length - 2; i >= 0; i--) {
      for (let j = i + 1; j < this.nodes.length; j++) {
        const panel = this.panel(i, j);
        if (panel !== null)
          this.onward[i] = Math.min(this.onward[i] as number, panel.cost + (this.onward[j] as number));
      }
    }
  }

  /** Least cost of any split; Infinity without one. */
  get least(): number {
    return this.onward[0] as number;
  }

  /** Splits that cost no more than a limit, at most so many. */
  upTo(limit: number, most: number): PlainSplit[] {
    const found: PlainSplit[] = [];
    const windows: PlainBox[] = [];
    const goOn = (i: number, cost: number): void => {
      for (let j = i + 1; j < this.nodes.length && found.length < most; j++) {
        const panel = this.panel(i, j);
        if (panel === null || cost + panel.cost + (this.onward[j] as number) > limit + A_LITTLE) continue;
        windows.push(panel.window);
        if (j < this.nodes.length - 1) goOn(j, cost + panel.cost);
        else found.push({ axis: this.axis, windows: [...windows], cost: cost + panel.cost });
        windows.pop();
      }
    };
    goOn(0, 0);
    return found;
  }

  /** The panel between two nodes with the cost of the seam at its end; null where there may be none. */
  private panel(i: number, j: number): { window: PlainBox; cost: number } | null {
    const [from, to] = [this.nodes[i] as Node, this.nodes[j] as Node];
    if (this.demanded.some((at) => at > from.at && at < to.at)) return null;
    // A window neither begins after the one that follows it nor ends before the one it follows.
    if ((to.lo < from.lo && from.seam) || (from.hi > to.hi && to.seam)) return null;
    const [a, b] = [Math.min(from.lo, to.lo), Math.max(from.hi, to.hi)];
    if (b - a > this.job.printable) return null;
    const [low, high] = this.lengthOver(a, b);
    if (high - low > this.job.longest) return null;
    const { area, panel } = this.job.prices;
    return { window: turned([a, low, b, high], this.axis), cost: (b - a) * (high - low) * area + panel + to.cost };
  }

  private needed(u: number, v: number): boolean {
    const [x, y] = this.axis === "x" ? [u, v] : [v, u];
    const { width, height, opening } = this.job;
    if (x < 0 || y < 0 || x >= width || y >= height) return false;
    return opening === null || x < opening[0] || x >= opening[2] || y < opening[1] || y >= opening[3];
  }

  /**
   * How far film must reach at both ends of each needed stretch of one column (or, "across", of one row) of cells: past a
   * border by half of what is shared there, else by the bleed.
   */
  private ends(line: number, way: "along" | "across"): [number, number][] {
    const [u0, v0, u1, v1] = this.part;
    const [from, to] = way === "along" ? [v0, v1] : [u0, u1];
    const cell = (place: number): boolean => (way === "along" ? this.needed(line, place) : this.needed(place, line));
    const size = (this.axis === "x") === (way === "along") ? this.job.height : this.job.width;
    const side = way === "along" ? (this.axis === "x" ? "y" : "x") : this.axis;
    const past = (edge: number, cellBeyond: number): number => {
      if (cell(cellBeyond)) return this.halfBeyond(side, edge, line);
      return edge === 0 || edge === size ? this.job.bleed : this.job.bleedOfOpenings;
    };
    const ends: [number, number][] = [];
    for (let place = from; place < to; place++) {
      if (!cell(place)) continue;
      const start = place;
      while (place < to && cell(place)) place++;
      ends.push([start - past(start, start - 1), place + past(place, place)]);
    }
    return ends;
  }

  /** Half of what is shared over the border of this part that runs along `edge` and past the cell `line`. */
  private halfBeyond(axis: Axis, edge: number, line: number): number {
    const border = this.borders.find(
      ({ axis: side, at, from, to }) => side === axis && at === edge && from <= line && to > line,
    );
    if (border === undefined) throw new Error(`no border at ${axis} ${edge}, ${line}`);
    return border.half;
  }

  /** Lowest and highest end of a window over a range: its columns, and those that it only touches. */
  private lengthOver(from: number, to: number): readonly [number, number] {
    const [u0, , u1] = this.part;
    const key = `${from} ${to}`;
    const known = this.lengths.get(key);
    if (known !== undefined) return known;
    let [low, high] = [Infinity, -Infinity];
    const [first, last] = [Math.max(u0, Math.max(from, u0) - 1), Math.min(u1, Math.min(to, u1) + 1)];
    for (let column = first; column < last; column++) {
      for (const [a, b] of this.ends(column, "along")) {
        low = Math.min(low, a);
        high = Math.max(high, b);
      }
    }
    this.lengths.set(key, [low, high]);
    return [low, high];
  }

  /** Lowest and highest needed place of some columns inside the part. */
  private heightOver(from: number, to: number): { from: number; to: number; length: number } {
    const [u0, v0, u1, v1] = this.part;
    const rows: number[] = [];
    for (let row = v0; row < v1; row++) {
      for (let column = Math.max(u0, from); column < Math.min(u1, to); column++) {
        if (!this.needed(column, row)) continue;
        rows.push(row);
        break;
      }
    }
    return { from: rows[0] as number, to: (rows.at(-1) as number) + 1, length: rows.length };
  }

  private seamAt(at: number): Node | null {
    const { from, to, length } = this.heightOver(at - 1, at + 1);
    const { cut, half } = judge(this.job, this.axis, at, from, to);
    const { from: v0, to: v1 } = this.heightOver(at - half, at + half);
    const { never, avoided } = metZones(this.job, { axis: this.axis, at, from, to, cut }, [
      { u0: at - half, u1: at + half, v0, v1 },
    ]);
    if (never) return null;
    const cost = (cut ? 0 : length * this.job.prices.seam) + avoided * this.job.prices.avoid;
    return { at, lo: at - half, hi: at + half, seam: true, cost };
  }

  private demands(at: number): boolean {
    const { from, to } = this.heightOver(at - 1, at + 1);
    return this.job.lines.some(
      (line) => line.mustSplit && line.axis === this.axis && line.at === at && line.from <= from && line.to >= to,
    );
  }
}
