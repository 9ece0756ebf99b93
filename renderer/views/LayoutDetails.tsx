import type { PlanLayout } from "../../shared/planFile.ts";
import { safeWords } from "../state/slack.ts";
import {
  area,
  asSentence,
  boundWords,
  directionWords,
  layoutTitle,
  layoutWay,
  lengthWithUnit,
  money,
  percent,
  seamCountOf,
} from "../state/words.ts";
import { Facts } from "./Facts.tsx";
import { useOnSheet } from "./hooks.ts";

/** The layout in numbers: what it costs and why, where the film goes, and what choosing it means beside the best one. */
export function LayoutDetails({ layout }: { readonly layout: PlanLayout }) {
  const { plan, unit, currency, elevations } = useOnSheet();
  const { totals, wasteBy, bound } = layout;
  const parted = layout.sections ?? [];
  const differing = layout.differences ?? [];
  const tightest = [...(layout.dimensions ?? [])].sort((a, b) => a.slack - b.slack)[0];
  const nameOf = (id: string): string => elevations.find((one) => one.id === id)?.name || id;
  const chosen = plan?.layouts.find(({ id }) => id === plan.chosen);
  return (
    <>
      <p className="lead figures">
        {layoutTitle(layout, unit)} <span className="aside">{layoutWay(layout)}</span>
      </p>
      <p>
        {chosen === undefined || chosen.id === layout.id
          ? chosenWords(layout)
          : comparedWords(layout, chosen, currency)}
      </p>
      <Facts
        facts={[
          ["Film", `${lengthWithUnit(Math.round(totals.filmLength * 10) / 10, unit)}, ${area(totals.filmArea, unit)}`],
          ["Needed", area(totals.neededArea, unit)],
          ["Waste", percent(totals.wastePercent)],
          ["Panels", String(totals.panelCount)],
          ["Seams seen", String(seamCountOf(layout))],
          ["Of them open", String(totals.openSeams)],
          ["On body lines", String(totals.bodyLineSeams)],
          ["Along colour edges", String(totals.colourEdgeSeams)],
          ["Hidden in breaks, besides", String(totals.breakSeams)],
          ["Seams seen, length", lengthWithUnit(Math.round(totals.visibleSeamLength * 10) / 10, unit)],
          [
            "Weighed by height and artwork",
            totals.weightedSeamLength === undefined
              ? null
              : lengthWithUnit(Math.round(totals.weightedSeamLength * 10) / 10, unit),
          ],
          ["Tightest measure", tightest === undefined ? null : safeWords(tightest.slack, unit)],
        ]}
      />
      {parted.length === 0 ? null : (
        <>
          <h4>Sections found</h4>
          <ul className="rows">
            {parted.map(({ elevation, id, direction, why }) => (
              <li key={`${elevation}/${id}`} className="row-prose">
                <strong>
                  {nameOf(elevation)}, {id}
                </strong>{" "}
                <span className="aside">panels run {directionWords[direction]}</span>
                <p>{asSentence(why)}</p>
              </li>
            ))}
          </ul>
        </>
      )}
      {differing.length === 0 ? null : (
        <>
          <h4>Where sides differ</h4>
          <ul className="rows">
            {differing.map(({ elevation, section, axis, at, says }) => (
              <li key={`${elevation}/${section} ${axis} ${at}`} className="row-prose">
                {asSentence(`${nameOf(elevation)}: ${says}`)}
              </li>
            ))}
          </ul>
        </>
      )}
      <h4>What it costs</h4>
      <Facts
        facts={[
          ["Film", money(totals.cost.film, currency)],
          ["Laminate", money(totals.cost.laminate, currency)],
          ["Ink", money(totals.cost.ink, currency)],
          ["Seams", money(totals.cost.seams, currency)],
          ["Panels", money(totals.cost.panels, currency)],
          ["Together", <strong key="total">{money(totals.cost.total, currency)}</strong>],
          ["Cannot be less than", money(bound.cost, currency)],
        ]}
      />
      <p className="aside">{boundWords(layout, unit, currency)}</p>
      <h4>Where the waste is</h4>
      <Facts
        facts={[
          ["Gaps and voids", percent(wasteBy.gapsAndVoids)],
          ["Edge margins", percent(wasteBy.edgeMargin)],
          ["Leader and trailer", percent(wasteBy.leaderTrailer)],
          ["Over openings", percent(wasteBy.openings)],
          ["Bleed", percent(wasteBy.bleed)],
          ["Overlap", percent(wasteBy.overlap)],
        ]}
      />
    </>
  );
}

function chosenWords(layout: PlanLayout): string {
  return `Costs the least of all layouts found${layout.bound.proven ? ", and no plan of this kind can cost less" : ""}.`;
}

const more = (difference: number, words: (size: string) => [string, string], shown: (size: number) => string): string =>
  words(shown(Math.abs(difference)))[difference > 0 ? 0 : 1];

/** What this layout would mean instead of the one of least cost, in one sentence. */
export function comparedWords(layout: PlanLayout, chosen: PlanLayout, currency: string): string {
  const cost = layout.totals.cost.total - chosen.totals.cost.total;
  const seams = seamCountOf(layout) - seamCountOf(chosen);
  const waste = layout.totals.wastePercent - chosen.totals.wastePercent;
  const parts = [
    Math.abs(cost) < 0.005
      ? "costs the same"
      : more(
          cost,
          (size) => [`costs ${size} more`, `costs ${size} less`],
          (size) => money(size, currency),
        ),
    seams === 0
      ? "shows as many seams"
      : more(
          seams,
          (size) => [`shows ${size} more`, `shows ${size} fewer`],
          (size) => `${size} ${size === 1 ? "seam" : "seams"}`,
        ).replace(/shows (\d+) (seams?) (more|fewer)/, "shows $1 $3 $2"),
    Math.abs(waste) < 0.05
      ? "wastes as much"
      : more(
          waste,
          (size) => [`wastes ${size} more`, `wastes ${size} less`],
          (size) => `${size.toFixed(1)} points`,
        ),
  ];
  return `Beside the layout of least cost it ${parts[0]}, ${parts[1]} and ${parts[2]}.`;
}
