import type { Interval } from "../../geometry/box.ts";
import type { Rules } from "../../model/instance.ts";
import type { Panel, Seam } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import type { LineFacts } from "../lines.ts";
import { lengthOf, rangeOn, shared } from "../ranges.ts";
import type { Words } from "../words.ts";

const breach = breachOf("seamOverlaps");

/**
 * Both windows reach past the line by half the least overlap; `overlap` is the width that they really share, at a border
 * the least of all that face each other; `finishedOverlap` is what stays of it (rules 10 and 13).
 */
export const seamOverlaps: LayoutCheck = ({ job: { words, instance }, elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    for (const { seam, low, high, facts } of view.seams) {
      if (facts === null) continue;
      const overlap = shared(rangeOn(seam.axis, low.window), rangeOn(seam.axis, high.window));
      found.push(...halves(seam, facts, low, high, words));
      found.push(...stated(seam, overlap, facts.butted, instance.rules, words));
    }
    for (const { seam, border } of view.borderSeams) {
      if (border === null) continue;
      for (const { low, high } of border.facing) found.push(...halves(seam, border.facts, low, high, words));
      const narrowest = border.facing.map(({ overlap }) => overlap).sort((a, b) => lengthOf(a) - lengthOf(b))[0];
      if (narrowest === undefined) found.push(breach([seam.id], "no two windows face each other over this border"));
      else found.push(...stated(seam, narrowest, border.facts.butted, instance.rules, words));
    }
  }
  return found;
};

function halves(seam: Seam, facts: LineFacts, low: Panel, high: Panel, words: Words): Violation[] {
  const past = [
    { panel: low, reach: rangeOn(seam.axis, low.window).to - seam.at },
    { panel: high, reach: seam.at - rangeOn(seam.axis, high.window).from },
  ];
  return past
    .filter(({ reach }) => reach < facts.half)
    .map(({ panel, reach }) =>
      breach(
        [seam.id, panel.id],
        `it reaches ${words.length(reach)} past the seam's line and must reach ${words.length(facts.half)}`,
      ),
    );
}

function stated(seam: Seam, overlap: Interval, butted: boolean, rules: Rules, words: Words): Violation[] {
  const found: Violation[] = [];
  const width = lengthOf(overlap);
  if (seam.overlap !== width) {
    found.push(
      breach(
        [seam.id],
        `its overlap is said to be ${words.length(seam.overlap)}; the windows share ${words.length(width)}`,
      ),
    );
  }
  const due = finished(seam, butted, rules);
  if (seam.finishedOverlap !== due) {
    found.push(
      breach(
        [seam.id],
        `its finished overlap is said to be ${words.length(seam.finishedOverlap)}; it is ${words.length(due)}`,
      ),
    );
  }
  return found;
}

/** Nothing where both films are trimmed in a gap or meet edge to edge. */
function finished(seam: Seam, butted: boolean, rules: Rules): number {
  if (seam.kind === "break" || butted) return 0;
  return seam.kind === "colourEdge" ? rules.colourEdgeOverlap : seam.overlap;
}
