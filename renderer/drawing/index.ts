/** Drawings of elevations, loads and layouts: components to show them, plain functions for scales and names. */
export { ElevationDrawing, type ElevationDrawingProps } from "./ElevationDrawing.tsx";
export { fitElevation } from "./elevationScene.ts";
export { cutKey, layoutKey, madeThing, means, panelKey, pieceKey, seamKey, zoneKey } from "./ids.ts";
export { Legend } from "./Legend.tsx";
export { RollDrawing, type RollDrawingProps } from "./RollDrawing.tsx";
export { fitRoll } from "./rollScene.ts";
export { ScaleBar } from "./ScaleBar.tsx";
export { SearchCourse, SmallCourse } from "./SearchCourse.tsx";
export { TradeOff, type TradeOffProps } from "./TradeOff.tsx";
