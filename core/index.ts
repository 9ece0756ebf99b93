/** The one public door of the core; nothing outside imports deeper. */

export type { Picture, Pixel } from "./artwork/picture.ts";
export {
  fitToBox,
  type KnownPlace,
  LEAST_APART,
  MOST_TURN,
  pixelOf,
  pixelSize,
  placedByDistance,
  placedByTwo,
  placeOf,
  type Registered,
  type Registration,
} from "./artwork/registration.ts";
export { cellsOver, MOST_CELLS, seamVisibility, seamVisibilityInParts } from "./artwork/seamVisibility.ts";
export { type TrimBand, trimLine } from "./artwork/trimLine.ts";
export { cutListCsv } from "./exporting/cutListCsv.ts";
export { datumSheetCsv } from "./exporting/datumSheetCsv.ts";
export { rollMapSvg } from "./exporting/rollMapSvg.ts";
export { datumSheet } from "./fitting/datumSheet.ts";
export type { Axis, Box, Interval, Point, Polygon, Side } from "./geometry/box.ts";
export { boundingBox } from "./geometry/box.ts";
export { neededRegion, type Region } from "./geometry/region.ts";
export { base64From, bytesFromBase64 } from "./model/base64.ts";
export { buildInstance } from "./model/buildInstance.ts";
export type * from "./model/datumRow.ts";
export type * from "./model/instance.ts";
export type * from "./model/plan.ts";
export { seamCount } from "./model/plan.ts";
export { planFromFile, planText, planToFile, readPlan } from "./model/planDocument.ts";
export type { Problem } from "./model/problem.ts";
export { readJob, readJobText } from "./model/readJob.ts";
export type { Result } from "./model/result.ts";
export { type Progress, type Random, type Run, seededRandom } from "./model/run.ts";
export type { Violation } from "./model/violation.ts";
export { nestInStrip } from "./nesting/nestInStrip.ts";
export type { Strip, StripEffort, StripNesting, StripPlace, StripSize } from "./nesting/strip.ts";
export { stripFaults } from "./nesting/stripFaults.ts";
export { cuttingFaults } from "./patterns/cuttingFaults.ts";
export { type CuttingPlan, type CuttingStock, solveCuttingStock } from "./patterns/cuttingStock.ts";
export { type CutSheet, type SheetCutting, type SheetPlan, solveSheetCutting } from "./patterns/sheetCutting.ts";
export { type SheetKnapsack, type SheetKnapsackPlan, solveSheetKnapsack } from "./patterns/sheetKnapsack.ts";
export type { FirstCut, Rectangle, SheetPlacement } from "./patterns/twoStage.ts";
export { sheetCuttingFaults, sheetKnapsackFaults } from "./patterns/twoStageFaults.ts";
export {
  checkValues,
  faultsOf,
  type Programme,
  type ProgrammeEngine,
  type ProgrammeLimit,
  type ProgrammeOutcome,
} from "./programme/programme.ts";
export { type SolveOptions, solve } from "./solve.ts";
export * from "./units/formatLength.ts";
export * from "./units/parseLength.ts";
export { TICKS_PER, type Ticks, ticksFrom, ticksTo, type Unit } from "./units/ticks.ts";
export { verifyPlan } from "./verifying/verifyPlan.ts";
