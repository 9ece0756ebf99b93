import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("idsResolve");

/** Ids are unique in their list, and every id that a layout names is there (sections 4 rule 2 and 5 of the contract). */
export const idsResolve: LayoutCheck = ({ job, layout, elevations, panels }) => {
  const found: Violation[] = [];
  const unique = (what: string, ids: readonly string[]): void => {
    const seen = new Set<string>();
    for (const id of ids) {
      if (seen.has(id)) found.push(breach([id], `two ${what} are called ${id}`));
      seen.add(id);
    }
  };
  unique(
    "panels",
    layout.panels.map(({ id }) => id),
  );
  unique(
    "seams",
    layout.seams.map(({ id }) => id),
  );
  unique(
    "loads",
    layout.rolls.map(({ id }) => id),
  );
  for (const { id } of layout.panels) {
    if (job.pieces.has(id)) found.push(breach([id], `a panel and a loose piece are both called ${id}`));
  }
  const views = new Map(elevations.map((view) => [view.job.elevation.id, view]));
  for (const panel of layout.panels) {
    const view = views.get(panel.elevation);
    if (view === undefined) {
      found.push(breach([panel.id, panel.elevation], `the job has no elevation ${panel.elevation}`));
      continue;
    }
    const section = view.sections.find(({ id }) => id === panel.section);
    if (section === undefined) {
      found.push(breach([panel.id, panel.section], `elevation ${panel.elevation} has no section ${panel.section}`));
      continue;
    }
    if (panel.role !== section.role) {
      found.push(breach([panel.id], `a panel of ${panel.section} has the role ${section.role}, not ${panel.role}`));
    }
    if (panel.film !== section.film) {
      found.push(
        breach([panel.id, panel.film], `${panel.section} is covered in ${section.film}, not in ${panel.film}`),
      );
    }
  }
  for (const seam of layout.seams) {
    const view = views.get(seam.elevation);
    if (view === undefined) {
      found.push(breach([seam.id, seam.elevation], `the job has no elevation ${seam.elevation}`));
      continue;
    }
    if (seam.border !== (seam.section === null)) {
      found.push(breach([seam.id], "a border names no section, and every other seam names one"));
    }
    const sections = new Set(view.sections.map(({ id }) => id));
    if (seam.section !== null && !sections.has(seam.section)) {
      found.push(breach([seam.id, seam.section], `elevation ${seam.elevation} has no section ${seam.section}`));
    }
    for (const side of seam.between) {
      const panel = panels.get(side);
      const there =
        seam.section === null
          ? sections.has(side)
          : panel !== undefined && panel.elevation === seam.elevation && panel.section === seam.section;
      if (!there) {
        found.push(
          breach(
            [seam.id, side],
            `${side} is no ${seam.section === null ? "section" : `panel of ${seam.section}`} there`,
          ),
        );
      }
    }
    if (!seam.between.includes(seam.top)) {
      found.push(breach([seam.id, seam.top], `what lies on top, ${seam.top}, is neither of the two that meet`));
    }
  }
  for (const load of layout.rolls) {
    if (/[/:|]/.test(load.id)) found.push(breach([load.id], "a load's id holds none of / : |"));
    if (!job.films.has(load.film)) found.push(breach([load.id, load.film], `the job has no film ${load.film}`));
    if (load.stock !== null && !job.stock.has(load.stock)) {
      found.push(breach([load.id, load.stock], `there is no ${load.stock} in stock`));
    }
    for (const { id } of load.cuts.flatMap((cut) => cut.pieces)) {
      if (!panels.has(id) && !job.pieces.has(id)) {
        found.push(breach([load.id, id], `${id} is neither a panel nor a loose piece of this job`));
      }
    }
  }
  return found;
};
