import type { PlanLayout } from "../../shared/planFile.ts";

/** The panels and sections that one panel lies over and under, by the seams it takes part in. */
export function laps(
  panel: PlanLayout["panels"][number],
  seams: PlanLayout["seams"],
): { over: string[]; under: string[] } {
  const over: string[] = [];
  const under: string[] = [];
  for (const seam of seams) {
    if (seam.elevation !== panel.elevation) continue;
    const self = seam.border ? panel.section : panel.id;
    const other = seam.between.find((one) => one !== self);
    if (!seam.between.includes(self) || other === undefined) continue;
    (seam.top === self ? over : under).push(seam.border ? `section ${other}` : other);
  }
  return { over, under };
}
