import type { PlanLayout } from "../../shared/planFile.ts";

/**
 * Things on the sheet are named by kind and id, so that one pointer finds the same thing in every band:
 * `panel:<panelId>`, `seam:<elevation>/<seamId>`, `piece:<id>#<copy>`, `cut:<loadId>:<n>`, `zone:<elevation>/<kind>/<id>`,
 * `layout:<id>`, `elevation:<id>`.
 */
export type ThingKind = "panel" | "seam" | "piece" | "cut" | "zone" | "layout" | "elevation";

export interface Thing {
  readonly kind: ThingKind;
  readonly rest: string;
}

const kinds: readonly string[] = ["panel", "seam", "piece", "cut", "zone", "layout", "elevation"];

/** Kind and remainder of a thing's name; null for what is none. */
export function thingOf(name: string | null): Thing | null {
  if (name === null) return null;
  const place = name.indexOf(":");
  const kind = name.slice(0, Math.max(0, place));
  return kinds.includes(kind) ? { kind: kind as ThingKind, rest: name.slice(place + 1) } : null;
}

export const panelName = (panelId: string): string => `panel:${panelId}`;
export const seamName = (seam: PlanLayout["seams"][number]): string => `seam:${seam.elevation}/${seam.id}`;
export const pieceName = (id: string, copy: number): string => `piece:${id}#${copy}`;
export const cutName = (loadId: string, number: number): string => `cut:${loadId}:${number}`;
export const zoneName = (elevation: string, kind: string, id: string): string => `zone:${elevation}/${kind}/${id}`;

/** Id and copy in a piece's name. */
export function pieceOf(rest: string): { id: string; copy: number } | null {
  const place = rest.lastIndexOf("#");
  const copy = Number(rest.slice(place + 1));
  return place < 0 || !Number.isInteger(copy) ? null : { id: rest.slice(0, place), copy };
}

/** Load and cut number in a cut's name. */
export function cutOf(rest: string): { load: string; number: number } | null {
  const place = rest.lastIndexOf(":");
  const number = Number(rest.slice(place + 1));
  return place < 0 || !Number.isInteger(number) ? null : { load: rest.slice(0, place), number };
}

/** Where one piece lies. */
export interface Lying {
  readonly load: PlanLayout["rolls"][number];
  readonly cut: PlanLayout["rolls"][number]["cuts"][number];
  /** From 1. */
  readonly cutNumber: number;
  readonly piece: PlanLayout["rolls"][number]["cuts"][number]["pieces"][number];
}

/** Every placed piece of a layout in the order of the film. */
export function* lyingIn(layout: PlanLayout): Generator<Lying> {
  for (const load of layout.rolls) {
    for (const [place, cut] of load.cuts.entries()) {
      for (const piece of cut.pieces) yield { load, cut, cutNumber: place + 1, piece };
    }
  }
}

/** Where all copies of a panel or loose piece lie. */
export function copiesOf(layout: PlanLayout, id: string): Lying[] {
  return [...lyingIn(layout)].filter(({ piece }) => piece.id === id);
}

/**
 * Everything that is the same thing, or part of it, in another band: a panel and all its copies on the film with their
 * cuts, a cut and its pieces and their panels, a seam and the two panels that meet there.
 */
export function linkedWith(layout: PlanLayout | null, name: string | null): ReadonlySet<string> {
  const linked = new Set<string>();
  const thing = thingOf(name);
  if (thing === null || name === null || layout === null) return linked;
  linked.add(name);
  const addPiece = (id: string, withCut: boolean): void => {
    linked.add(panelName(id));
    for (const { load, cutNumber, piece } of copiesOf(layout, id)) {
      linked.add(pieceName(id, piece.copy));
      if (withCut) linked.add(cutName(load.id, cutNumber));
    }
  };
  if (thing.kind === "panel") addPiece(thing.rest, true);
  if (thing.kind === "piece") {
    const piece = pieceOf(thing.rest);
    if (piece !== null) {
      linked.add(panelName(piece.id));
      for (const { load, cutNumber, piece: lying } of copiesOf(layout, piece.id)) {
        if (lying.copy === piece.copy) linked.add(cutName(load.id, cutNumber));
      }
    }
  }
  if (thing.kind === "cut") {
    const cut = cutOf(thing.rest);
    const load = layout.rolls.find(({ id }) => id === cut?.load);
    for (const piece of load?.cuts[(cut?.number ?? 0) - 1]?.pieces ?? []) {
      linked.add(pieceName(piece.id, piece.copy));
      linked.add(panelName(piece.id));
    }
  }
  if (thing.kind === "seam") {
    const seam = layout.seams.find((one) => seamName(one) === name);
    if (seam !== undefined && !seam.border) for (const id of seam.between) linked.add(panelName(id));
  }
  return linked;
}
