import type { Dimension } from "./dimensions.ts";
import { Figure } from "./Figure.tsx";
import { short } from "./frame.ts";
import type { Line } from "./strokes.ts";
import { Unheard } from "./Unheard.tsx";

const path = (lines: readonly Line[]): string =>
  lines.map(({ x1, y1, x2, y2 }) => `M${short(x1)} ${short(y1)}L${short(x2)} ${short(y2)}`).join("");

/** Dimensions as a draughtsman draws them. For the eye: the measured things carry their sizes in their sentences. */
export function Dimensions({ dimensions }: { readonly dimensions: readonly Dimension[] }) {
  return (
    <Unheard className="draw-dimensions">
      {dimensions.map((one) => (
        <g key={one.key}>
          <path className="draw-extension" d={path(one.extensions)} />
          <path className="draw-dimension" d={path(one.lines)} />
          <path className="draw-arrow-end" d={one.arrows} />
          <text
            className="draw-text draw-text-figures"
            transform={`translate(${short(one.at.x)} ${short(one.at.y)})${one.turned ? " rotate(-90)" : ""}`}
            dy="0.35em"
          >
            <Figure text={one.text} />
          </text>
        </g>
      ))}
    </Unheard>
  );
}
