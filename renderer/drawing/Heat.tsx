import { type ReactNode, useMemo } from "react";
import type { Elevation, SeamMap } from "../../core/index.ts";
import type { Frame } from "./frame.ts";
import { heatPaths, heatSteps } from "./heat.ts";

interface HeatProps {
  readonly elevation: Pick<Elevation, "box">;
  readonly map: SeamMap;
  readonly axis: "x" | "y";
  readonly frame: Frame;
}

/** Where a seam would be seen, laid under the lines of an elevation. */
export function Heat({ elevation, map, axis, frame }: HeatProps): ReactNode {
  const { box } = elevation;
  const paths = useMemo(() => heatPaths(map, axis, frame, box), [map, axis, frame, box]);
  return (
    <g className="draw-heat">
      {paths.map((path, step) => (
        <path key={heatSteps[step]?.words} className={`draw-heat-${step + 1}`} d={path} />
      ))}
    </g>
  );
}
