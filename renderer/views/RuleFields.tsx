import { FactorField } from "../controls/FactorField.tsx";
import { ChoiceField, CountField, LengthField, MoneyField, TextField } from "../controls/jobFields.tsx";
import { Clearances } from "./Clearances.tsx";
import { HeightZones } from "./HeightZones.tsx";

/** The rules of the job. Each edit is one step and plans the job again. */
export function RuleFields() {
  return (
    <>
      <div className="fields">
        <LengthField path="rules.bleed" label="Bleed" />
        <LengthField path="rules.overlap" label="Overlap" />
        <LengthField path="rules.trimOverlap" label="Overlap at breaks" hint="Both films are trimmed in the gap." />
        <LengthField path="rules.colourEdgeOverlap" label="Left at colour edges" />
        <LengthField path="rules.cutGap" label="Gap on the film" />
        <LengthField path="rules.leader" label="Leader" />
        <LengthField path="rules.trailer" label="Trailer" />
        <LengthField path="rules.sliverUnder" label="Share out slivers under" none="as usual" />
        <LengthField path="rules.keepLength" label="Rests worth keeping from" none="not asked" />
        <LengthField
          path="rules.leastSlack"
          label="Least room to shift"
          none="not asked"
          hint="Worked into what films carry past edges and seams, so that each panel may be shifted this far."
        />
        <CountField
          path="rules.maxOpenSeams"
          label="Most open seams"
          none="no limit"
          hint="On any one copy of an elevation."
        />
        <MoneyField path="rules.seamPricePerLength" label="A seam that is seen" per="length" />
        <FactorField
          path="rules.artworkWeight"
          label="Artwork weighs"
          otherwise={4}
          hint="Added to 1: with 4, a seam through it counts five times as much."
        />
        <MoneyField path="rules.avoidPenalty" label="A seam through an ‘avoid’ zone" per="each" />
        <MoneyField path="rules.panelPrice" label="A panel" per="each" />
        <ChoiceField
          path="rules.oneLot"
          label="One lot for"
          otherwise="elevation"
          choices={[
            ["elevation", "each elevation"],
            ["subject", "each subject"],
            ["none", "not asked"],
          ]}
        />
        <TextField path="rules.currency" label="Currency" />
      </div>
      <h4>Seams by height over the ground</h4>
      <HeightZones />
      <h4>Clearance round obstacles</h4>
      <Clearances />
    </>
  );
}
