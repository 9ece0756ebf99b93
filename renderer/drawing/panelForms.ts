import type { LabelForm, LabelLine } from "./labels.ts";
import type { Unit } from "./lengths.ts";
import type { PlanPanel } from "./model.ts";
import { sizeText } from "./words.ts";

/** Names of a panel from the fullest to its bare number; the elevation goes without saying on its own drawing. */
export function panelNames(panel: PlanPanel): { full: string; section: string; number: string } {
  const parts = panel.id.split("/");
  const number = parts.at(-1) ?? panel.id;
  return { full: panel.id, section: parts.length > 2 ? parts.slice(1).join("/") : panel.id, number };
}

export const upright = (lines: readonly LabelLine[]): LabelForm => ({ lines, turned: false });
export const turned = (lines: readonly LabelLine[]): LabelForm => ({ lines, turned: true });

/** Name and size together where there is room, then the name alone down to its number, then the size, then nothing. */
export function panelForms(panel: PlanPanel, unit: Unit): LabelForm[] {
  const names = panelNames(panel);
  const size: LabelLine = { text: sizeText(panel.across, panel.along, unit), style: "figures" };
  const name = (text: string): LabelLine => ({ text, style: "name" });
  return [
    upright([name(names.full), size]),
    upright([name(names.section), size]),
    turned([name(names.full), size]),
    turned([name(names.section), size]),
    upright([name(names.section)]),
    turned([name(names.section)]),
    upright([name(names.number)]),
    turned([name(names.number)]),
    upright([size]),
    turned([size]),
  ];
}
