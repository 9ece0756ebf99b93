import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("openSeams");

/** No copy of an elevation has more open seams, borders included, than allowed (rule 16). */
export const openSeams: LayoutCheck = ({ job: { instance }, layout }) => {
  const most = instance.rules.maxOpenSeams;
  if (most === null) return [];
  return instance.elevations.flatMap(({ id }) => {
    const open = layout.seams.filter((seam) => seam.elevation === id && seam.kind === "open").length;
    return open > most ? [breach([id], `it has ${open} open seams; ${most} is the most`)] : [];
  });
};
