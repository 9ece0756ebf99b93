import { meet, type Rectangle } from "./rectangle.ts";
import { figureWidth, textWidth } from "./textWidth.ts";

/** One line of a label; in `figures` fractions are set as such and the unit small. */
export interface LabelLine {
  readonly text: string;
  readonly style: "name" | "figures" | "quiet";
}

/** One way to set a label; `turned` reads upward. */
export interface LabelForm {
  readonly lines: readonly LabelLine[];
  readonly turned: boolean;
}

/** A label that is wanted somewhere in `room`: the first of `forms` that fits without meeting anything is set. */
export interface LabelWish {
  readonly key: string;
  readonly room: Rectangle;
  readonly forms: readonly LabelForm[];
  /** Where in the room it would best be, as shares of the free width and height; the middle if left out. */
  readonly anchors?: readonly (readonly [number, number])[];
  /** Refuses places for reasons of its own. */
  readonly allows?: (box: Rectangle) => boolean;
}

export interface PlacedLabel {
  readonly key: string;
  readonly form: LabelForm;
  /** What it covers, turned or not. */
  readonly box: Rectangle;
}

export const lineHeight = 15;
/** A line by itself needs no room for descenders of a line above. */
const singleHeight = 12;
export const textSize = 12;

const spread: readonly (readonly [number, number])[] = [
  [0.5, 0.5],
  [0.5, 0.3],
  [0.5, 0.7],
  [0.5, 0.12],
  [0.5, 0.88],
  [0.5, 0.2],
  [0.5, 0.8],
  [0.5, 0],
  [0.5, 1],
  [0.25, 0.5],
  [0.75, 0.5],
  [0.2, 0.2],
  [0.8, 0.2],
  [0.2, 0.8],
  [0.8, 0.8],
  [0.38, 0.5],
  [0.62, 0.5],
  [0.14, 0.5],
  [0.86, 0.5],
  [0.08, 0.5],
  [0.92, 0.5],
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
];

/** Width and height that a form covers on the screen. */
export function formSize(form: LabelForm): { width: number; height: number } {
  const wide = ({ text, style }: LabelLine): number => (style === "figures" ? figureWidth : textWidth)(text, textSize);
  const length = Math.max(...form.lines.map(wide)) + 2;
  const height = singleHeight + (form.lines.length - 1) * lineHeight;
  return form.turned ? { width: height, height: length } : { width: length, height };
}

/**
 * Sets labels one after another, first come first served: a label keeps clear of everything in `taken` and of every label
 * set before it, lies wholly in its room, and gives way form by form until nothing is left of it.
 *
 * @param wishes most important first
 * @param taken rectangles that no label may meet
 * @returns the labels that found a place, in the order of the wishes
 */
export function placeLabels(wishes: readonly LabelWish[], taken: readonly Rectangle[]): PlacedLabel[] {
  const blocked = new Blocked();
  for (const box of taken) blocked.add(box);
  const placed: PlacedLabel[] = [];
  for (const wish of wishes) {
    const found = place(wish, blocked);
    if (found === null) continue;
    blocked.add(found.box);
    placed.push(found);
  }
  return placed;
}

/** The same in several passes: what finds no place among the first obstacles tries again among the next, usually fewer. */
export function placeInPasses(
  wishes: readonly LabelWish[],
  passes: readonly (readonly Rectangle[])[],
): PlacedLabel[][] {
  const byPass: PlacedLabel[][] = [];
  for (const taken of passes) {
    const done = byPass.flat();
    const keys = new Set(done.map(({ key }) => key));
    const open = wishes.filter((wish) => !keys.has(wish.key));
    byPass.push(placeLabels(open, [...taken, ...done.map(({ box }) => box)]));
  }
  return byPass;
}

function place(wish: LabelWish, blocked: Blocked): PlacedLabel | null {
  for (const form of wish.forms) {
    const { width, height } = formSize(form);
    const spareX = wish.room.width - width;
    const spareY = wish.room.height - height;
    if (spareX < 0 || spareY < 0) continue;
    for (const [across, down] of wish.anchors ?? spread) {
      const box = { x: wish.room.x + spareX * across, y: wish.room.y + spareY * down, width, height };
      if (!blocked.meets(box) && (wish.allows?.(box) ?? true)) return { key: wish.key, form, box };
    }
  }
  return null;
}

/** Rectangles sorted into upright stripes, so that a thousand labels do not each look at a thousand others. */
class Blocked {
  private readonly stripes = new Map<number, Rectangle[]>();

  add(box: Rectangle): void {
    for (const stripe of this.over(box)) {
      const list = this.stripes.get(stripe);
      if (list) list.push(box);
      else this.stripes.set(stripe, [box]);
    }
  }

  meets(box: Rectangle): boolean {
    return this.over(box).some((stripe) => this.stripes.get(stripe)?.some((other) => meet(other, box)) ?? false);
  }

  private over(box: Rectangle): number[] {
    const first = Math.floor(box.x / 128);
    const last = Math.floor((box.x + box.width) / 128);
    return Array.from({ length: last - first + 1 }, (_, step) => first + step);
  }
}
