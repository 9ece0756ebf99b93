import type { Instance } from "../model/instance.ts";
import type { Layout, Plan } from "../model/plan.ts";
import type { Violation } from "../model/violation.ts";
import type { LayoutCheck, PlanCheck } from "./check.ts";
import { applyOrder } from "./checks/applyOrder.ts";
import { bordersListed } from "./checks/bordersListed.ts";
import { boundHonest } from "./checks/boundHonest.ts";
import { boundsAcrossLayouts } from "./checks/boundsAcrossLayouts.ts";
import { costAgrees } from "./checks/costAgrees.ts";
import { cutsFollow } from "./checks/cutsFollow.ts";
import { differencesListed } from "./checks/differencesListed.ts";
import { dimensionsTrue } from "./checks/dimensionsTrue.ts";
import { fittingOrder } from "./checks/fittingOrder.ts";
import { foundSections } from "./checks/foundSections.ts";
import { frontierRight } from "./checks/frontierRight.ts";
import { holdsKept } from "./checks/holdsKept.ts";
import { idsResolve } from "./checks/idsResolve.ts";
import { insidePrintable } from "./checks/insidePrintable.ts";
import { keepClear } from "./checks/keepClear.ts";
import { lapsRight } from "./checks/lapsRight.ts";
import { leastSlackKept } from "./checks/leastSlackKept.ts";
import { loadsFit } from "./checks/loadsFit.ts";
import { mirrorsExact } from "./checks/mirrorsExact.ts";
import { mustSplit } from "./checks/mustSplit.ts";
import { oneLot } from "./checks/oneLot.ts";
import { openSeams } from "./checks/openSeams.ts";
import { panelShape } from "./checks/panelShape.ts";
import { piecesApart } from "./checks/piecesApart.ts";
import { piecesOnce } from "./checks/piecesOnce.ts";
import { piecesTurned } from "./checks/piecesTurned.ts";
import { planHead } from "./checks/planHead.ts";
import { printOrder } from "./checks/printOrder.ts";
import { restsRight } from "./checks/restsRight.ts";
import { rollWidthHolds } from "./checks/rollWidthHolds.ts";
import { seamKinds } from "./checks/seamKinds.ts";
import { seamLines } from "./checks/seamLines.ts";
import { seamOverlaps } from "./checks/seamOverlaps.ts";
import { sectionsTile } from "./checks/sectionsTile.ts";
import { shortfallsRight } from "./checks/shortfallsRight.ts";
import { slackTrue } from "./checks/slackTrue.ts";
import { stockFirst } from "./checks/stockFirst.ts";
import { totalsAgree } from "./checks/totalsAgree.ts";
import { warningsGiven } from "./checks/warningsGiven.ts";
import { wasteAgrees } from "./checks/wasteAgrees.ts";
import { windowsReachAcross } from "./checks/windowsReachAcross.ts";
import { windowsReachAlong } from "./checks/windowsReachAlong.ts";
import { wordsKnown } from "./checks/wordsKnown.ts";
import { type Job, jobOf } from "./job.ts";
import { layoutView } from "./layoutView.ts";

/** Every rule that one layout is held against. */
export const layoutChecks: readonly LayoutCheck[] = [
  wordsKnown,
  idsResolve,
  foundSections,
  sectionsTile,
  panelShape,
  windowsReachAlong,
  windowsReachAcross,
  seamLines,
  bordersListed,
  seamKinds,
  seamOverlaps,
  lapsRight,
  keepClear,
  mustSplit,
  openSeams,
  holdsKept,
  mirrorsExact,
  differencesListed,
  slackTrue,
  leastSlackKept,
  dimensionsTrue,
  piecesOnce,
  piecesTurned,
  insidePrintable,
  piecesApart,
  cutsFollow,
  loadsFit,
  restsRight,
  rollWidthHolds,
  oneLot,
  stockFirst,
  printOrder,
  applyOrder,
  fittingOrder,
  warningsGiven,
  totalsAgree,
  costAgrees,
  wasteAgrees,
  boundHonest,
];

/** Every rule that takes the whole plan. */
export const planChecks: readonly PlanCheck[] = [planHead, boundsAcrossLayouts, frontierRight, shortfallsRight];

/**
 * Holds a plan against every rule of the contract, by the job alone: nothing of how the plan was made is known here, and
 * no code is shared with it but units and types. Stated coordinates are checked, never worked out from an order.
 *
 * @param instance the job, resolved
 * @param plan as read or as made, ticks; may be nonsense
 * @returns every breach, layout by layout in the order of the file, each with the layout's id first in `at`; then those
 * of the plan as a whole. An empty list means that the plan keeps the contract.
 *
 * Lengths are exact but for `SLOPE_TICKS`, areas and money but for `SHARE` (see tolerance.ts). Never throws on a plan
 * that its schema accepts. Time: pairs of pieces only within one load and one gap's reach; pairs of panels only within
 * one elevation.
 */
export function verifyPlan(instance: Instance, plan: Plan): Violation[] {
  const job = jobOf(instance);
  return [
    ...plan.layouts.flatMap((layout) => verifyWithin(job, layout)),
    ...planChecks.flatMap((check) => check(job, plan)),
  ];
}

/** The part of `verifyPlan` that one layout alone answers for. */
export function verifyLayout(instance: Instance, layout: Layout): Violation[] {
  return verifyWithin(jobOf(instance), layout);
}

function verifyWithin(job: Job, layout: Layout): Violation[] {
  const view = layoutView(job, layout);
  return layoutChecks.flatMap((check) =>
    check(view).map((violation) =>
      violation.at[0] === layout.id ? violation : { ...violation, at: [layout.id, ...violation.at] },
    ),
  );
}
