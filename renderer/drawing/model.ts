/** The types of the core and of the plan file that are drawn, through one door. */
export type {
  Box,
  Break,
  ColourEdge,
  Elevation,
  Film,
  Hold,
  KeepClear,
  LoosePiece,
  Obstacle,
  Point,
  StockEntry,
} from "../../core/index.ts";
export type { PlanLayout } from "../../shared/planFile.ts";

import type { PlanLayout } from "../../shared/planFile.ts";

export type PlanPanel = PlanLayout["panels"][number];
export type PlanSeam = PlanLayout["seams"][number];
export type PlanRoll = PlanLayout["rolls"][number];
export type PlanCut = PlanRoll["cuts"][number];
export type PlanPiece = PlanCut["pieces"][number];
export type SeamKind = PlanSeam["kind"];
