import type { SeamCandidate } from "./seamRules.ts";

/** A copy of a list with room for more. */
export function grownTo<T extends Int32Array | Float64Array>(list: T, length: number): T {
  const grown = (list instanceof Int32Array ? new Int32Array(length) : new Float64Array(length)) as T;
  grown.set(list);
  return grown;
}

/**
 * The labels of a split's dynamic programme, one column a property, in the order in which they were made: partial splits
 * that end at `node`, each one panel longer than the label `before` it (-1 for the beginning).
 */
export class Labels {
  count = 0;
  node = new Int32Array(1024);
  before = new Int32Array(1024);
  price = new Float64Array(1024);
  visible = new Float64Array(1024);
  penalties = new Float64Array(1024);
  visibleLength = new Float64Array(1024);
  /** Handles inside bands so far: they only tell labels apart that are equal by every criterion. */
  handles = new Float64Array(1024);
  /** Seams so far that any member shows. */
  seen = new Int32Array(1024);
  /** By label, open seams by member; only where a limit binds. */
  private readonly open: (readonly number[])[] | null;

  constructor(countsOpen: boolean) {
    this.open = countsOpen ? [] : null;
  }

  add(
    node: number,
    before: number,
    price: number,
    visible: number,
    penalties: number,
    visibleLength: number,
    handles: number,
    seen: number,
    open: readonly number[] | null,
  ): void {
    if (this.count === this.node.length) this.grow();
    const label = this.count++;
    this.node[label] = node;
    this.before[label] = before;
    this.price[label] = price;
    this.visible[label] = visible;
    this.penalties[label] = penalties;
    this.visibleLength[label] = visibleLength;
    this.handles[label] = handles;
    this.seen[label] = seen;
    if (this.open !== null && open !== null) this.open[label] = open;
  }

  /**
   * Adds the label that follows `label` by one panel to those of its node, which start at `first`, unless one of them is
   * as good; takes out those that it beats.
   */
  extend(
    label: number,
    node: number,
    seam: SeamCandidate | null,
    cost: number,
    limits: readonly number[] | null,
    first: number,
  ): void {
    const price = (this.price[label] as number) + cost;
    let visible = this.visible[label] as number;
    let penalties = this.penalties[label] as number;
    let visibleLength = this.visibleLength[label] as number;
    let handles = this.handles[label] as number;
    let seen = this.seen[label] as number;
    if (seam !== null) {
      if (seam.visible > 0) seen++;
      visible += seam.visible;
      penalties += seam.penalties;
      visibleLength += seam.visibleLength;
      handles += seam.handles;
    }
    if (limits === null && this.count === first + 1) {
      // Most nodes hold one label: it stays, or the new one takes its place, without more ado.
      const gain = (this.price[first] as number) - price;
      if ((this.visible[first] as number) === visible && (this.penalties[first] as number) === penalties) {
        if (gain < 0 || (gain === 0 && this.goesBefore(first, handles, visibleLength))) return;
        this.before[first] = label;
        this.price[first] = price;
        this.visibleLength[first] = visibleLength;
        this.handles[first] = handles;
        this.seen[first] = seen;
        return;
      }
    }
    let open: readonly number[] | null = null;
    if (limits !== null && this.open !== null) {
      const before = this.open[label] as readonly number[];
      open = seam === null ? before : before.map((count, m) => count + (seam.kinds[m] === "open" ? 1 : 0));
      for (let m = 0; m < limits.length; m++) if ((open[m] as number) > (limits[m] as number)) return;
    }
    for (let other = first; other < this.count; other++) {
      const a = this.price[other] as number;
      const b = this.visible[other] as number;
      const c = this.penalties[other] as number;
      if (a > price || b > visible || c > penalties) continue;
      if (open !== null && !noMore(this.openOf(other), open)) continue;
      const less = a < price || b < visible || c < penalties || (open !== null && !noMore(open, this.openOf(other)));
      if (less || this.goesBefore(other, handles, visibleLength)) return;
    }
    // What the new label beats goes: it is written behind the rest, then the beaten ones are closed up.
    this.add(node, label, price, visible, penalties, visibleLength, handles, seen, open);
    const made = this.count - 1;
    let kept = first;
    for (let other = first; other <= made; other++) {
      if (other !== made && this.beats(made, other)) continue;
      if (kept !== other) this.move(other, kept);
      kept++;
    }
    this.count = kept;
  }

  /** Takes out the labels from `first` on that have more seams to be seen than `most`. */
  dropLonger(first: number, most: number): void {
    let kept = first;
    for (let label = first; label < this.count; label++) {
      if ((this.seen[label] as number) > most) continue;
      if (kept !== label) this.move(label, kept);
      kept++;
    }
    this.count = kept;
  }

  /**
   * Whether one of the labels from `first` on is no worse than `label` by every criterion, were `label` that much dearer,
   * and has no more handles: what follows both may come out equal, and then these decide.
   */
  isBeaten(label: number, first: number, handicap: number): boolean {
    const handles = this.handles[label] as number;
    for (let other = first; other < this.count; other++) {
      if ((this.handles[other] as number) <= handles && this.isNoWorse(other, label, handicap)) return true;
    }
    return false;
  }

  /** Whether a label stays before another that equals it by every criterion: fewer handles, then no more visible length. */
  private goesBefore(label: number, handles: number, visibleLength: number): boolean {
    const own = this.handles[label] as number;
    return own < handles || (own === handles && (this.visibleLength[label] as number) <= visibleLength);
  }

  private isNoWorse(a: number, b: number, handicap: number): boolean {
    return (
      (this.price[a] as number) <= (this.price[b] as number) + handicap &&
      (this.visible[a] as number) <= (this.visible[b] as number) &&
      (this.penalties[a] as number) <= (this.penalties[b] as number) &&
      (this.open === null || noMore(this.openOf(a), this.openOf(b)))
    );
  }

  /** Whether `a` is no worse than `b` and, where equal by every criterion, goes before it. */
  private beats(a: number, b: number): boolean {
    if (!this.isNoWorse(a, b, 0)) return false;
    const [handles, visibleLength] = [this.handles[b] as number, this.visibleLength[b] as number];
    return this.goesBefore(a, handles, visibleLength) || !this.isNoWorse(b, a, 0);
  }

  private openOf(label: number): readonly number[] {
    return this.open?.[label] ?? [];
  }

  private move(from: number, to: number): void {
    this.node[to] = this.node[from] as number;
    this.before[to] = this.before[from] as number;
    this.price[to] = this.price[from] as number;
    this.visible[to] = this.visible[from] as number;
    this.penalties[to] = this.penalties[from] as number;
    this.visibleLength[to] = this.visibleLength[from] as number;
    this.handles[to] = this.handles[from] as number;
    this.seen[to] = this.seen[from] as number;
    if (this.open !== null) this.open[to] = this.openOf(from);
  }

  private grow(): void {
    const length = 2 * this.node.length;
    this.node = grownTo(this.node, length);
    this.before = grownTo(this.before, length);
    this.price = grownTo(this.price, length);
    this.visible = grownTo(this.visible, length);
    this.penalties = grownTo(this.penalties, length);
    this.visibleLength = grownTo(this.visibleLength, length);
    this.handles = grownTo(this.handles, length);
    this.seen = grownTo(this.seen, length);
  }
}

/** Whether no count of `a` exceeds that of `b`. */
const noMore = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((count, m) => count <= (b[m] as number));
