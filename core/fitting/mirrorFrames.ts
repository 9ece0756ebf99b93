import type { Elevation } from "../model/instance.ts";

/** The elevation whose windows one repeats in the end, and whether it is seen reflected left to right. */
export interface MirrorFrame {
  readonly source: string;
  readonly flipped: boolean;
}

/** By id: elevations that repeat each other exactly have one source; one that follows another begins anew. */
export function mirrorFrames(elevations: readonly Elevation[]): ReadonlyMap<string, MirrorFrame> {
  const byId = new Map(elevations.map((elevation) => [elevation.id, elevation]));
  const frames = new Map<string, MirrorFrame>();
  for (const { id } of elevations) {
    let [here, flipped] = [byId.get(id), false];
    while (here !== undefined && here.mirrorOf !== null && here.mirror === "exact") {
      here = byId.get(here.mirrorOf);
      flipped = !flipped;
    }
    frames.set(id, { source: here?.id ?? id, flipped });
  }
  return frames;
}

/** The id that a section has where left and right change places: fills along an upright edge swap theirs. */
export const reflectedSection = (section: string): string =>
  section === "fill-left" ? "fill-right" : section === "fill-right" ? "fill-left" : section;
