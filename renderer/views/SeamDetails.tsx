import type { JobFile } from "../../shared/jobFile.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { Button } from "../controls/Button.tsx";
import { governs } from "../state/cautions.ts";
import { useCommands } from "../state/context.ts";
import { showLength } from "../state/lengths.ts";
import { panelName, seamName } from "../state/links.ts";
import { asSentence, kindWords, lengthWithUnit, money, seamCountOf, type Unit } from "../state/words.ts";
import { Facts, Names } from "./Facts.tsx";
import { useOnSheet } from "./hooks.ts";
import { SeamHolds } from "./SeamHolds.tsx";

type Seam = PlanLayout["seams"][number];

/** A seam: where it runs, why it is of its kind, what laps, and what fewer seams would cost. */
export function SeamDetails({ name }: { readonly name: string }) {
  const { layout, plan, unit, job, currency, elevations } = useOnSheet();
  const { select, showLayout } = useCommands();
  const seam = layout?.seams.find((one) => seamName(one) === name);
  if (layout === null || plan === null || seam === undefined) return null;
  const elevation = elevations.find(({ id }) => id === seam.elevation);
  const fewer = plan.layouts
    .filter((one) => seamCountOf(one) < seamCountOf(layout))
    .sort((a, b) => a.totals.cost.total - b.totals.cost.total)[0];
  return (
    <>
      <p className="lead">
        {seamTitle(seam)}, {kindWords[seam.kind]}
      </p>
      <p>{seam.why === undefined ? whyHere(seam, job, unit) : asSentence(seam.why)}</p>
      <Facts
        facts={[
          [seam.axis === "x" ? "Upright at" : "Level at", lengthWithUnit(seam.at, unit)],
          ["Runs", `${showLength(seam.from, unit)} to ${lengthWithUnit(seam.to, unit)}`],
          ["Both films carry", lengthWithUnit(seam.overlap, unit)],
          ["Left after trimming", lengthWithUnit(seam.finishedOverlap, unit)],
          ["On top", <Names key="top">{seam.border ? `section ${seam.top}` : seam.top}</Names>],
          ["On", elevation?.name || seam.elevation],
        ]}
      />
      {seam.border ? null : (
        <div className="row-words">
          {seam.between.map((id) => (
            <Button key={id} weight="bare" onClick={() => select(panelName(id))}>
              {id}
            </Button>
          ))}
        </div>
      )}
      <SeamHolds key={name} seam={seam} />
      <h4>What if not?</h4>
      {fewer === undefined ? (
        <p>No layout found has fewer seams that are seen.</p>
      ) : (
        <p>
          {fewerWords(seamCountOf(layout) - seamCountOf(fewer))} seen for{" "}
          {money(Math.abs(fewer.totals.cost.total - layout.totals.cost.total), currency)}{" "}
          {fewer.totals.cost.total >= layout.totals.cost.total ? "more" : "less"}.{" "}
          <Button weight="bare" onClick={() => showLayout(fewer.id)}>
            Show that layout
          </Button>
        </p>
      )}
      {seam.kind === "break" ? (
        <ul className="cautions">
          <li>Do not cut on paint or glass coatings; guard blades; test heat first.</li>
          <li className="aside">{governs}</li>
        </ul>
      ) : null}
    </>
  );
}

/** "Seam 2 of upper", "Border of upper and lower". */
const seamTitle = (seam: Seam): string =>
  seam.border
    ? `Border of ${seam.between[0]} and ${seam.between[1]}`
    : `Seam ${seam.id.split(":").at(-1) ?? seam.id} of ${seam.section ?? "the elevation"}`;

const fewerWords = (count: number): string => (count === 1 ? "1 seam fewer is" : `${count} seams fewer are`);

/** Why the seam is where it is, in one sentence, where the plan itself does not say. */
export function whyHere(seam: Seam, job: JobFile | null, unit: Unit): string {
  const line = lengthWithUnit(seam.at, unit);
  const least =
    job === null ? null : lengthWithUnit(seam.kind === "break" ? job.rules.trimOverlap : job.rules.overlap, unit);
  switch (seam.kind) {
    case "break":
      return `A gap or moulding runs along ${line}, so both films are trimmed in it and nothing laps; each carries film to spare, ${least ?? "as ruled"} together.`;
    case "bodyLine":
      return `A body line runs along ${line} and hides the lap from most views.`;
    case "colourEdge":
      return `The print changes colour along ${line}, so the film on top is trimmed just past that edge and the lap is hard to see.`;
    case "open":
      return seam.border
        ? `Two sections meet at ${line}, and no gap, body line or colour edge runs along the whole of it.`
        : `The panels are as wide as the film allows and no gap, body line or colour edge runs along ${line}, so this lap is in plain sight.`;
  }
}
