import type { ReactNode } from "react";
import { type Frame, screenX, screenY, short } from "./frame.ts";
import type { Point } from "./model.ts";

interface TrimLinesProps {
  readonly lines: readonly { readonly key: string; readonly points: readonly Point[] }[];
  readonly frame: Frame;
}

/** Where films may be trimmed inside their overlaps so that the cut is seen least. */
export function TrimLines({ lines, frame }: TrimLinesProps): ReactNode {
  return (
    <g className="draw-trims">
      {lines.map(({ key, points }) => {
        const path = `M${points.map(({ x, y }) => `${short(screenX(frame, x))} ${short(screenY(frame, y))}`).join("L")}`;
        return (
          <g key={key}>
            <path className="draw-trim-ground" d={path} />
            <path className="draw-trim" d={path} />
          </g>
        );
      })}
    </g>
  );
}
