import { type ReactNode, useId } from "react";
import { DirectionArrow } from "./ElevationDrawing.tsx";
import { Hatches } from "./Hatches.tsx";
import type { SeamKind } from "./model.ts";
import { SeamStroke } from "./SeamStroke.tsx";

const seams: readonly (readonly [SeamKind, string])[] = [
  ["open", "open seam"],
  ["colourEdge", "seam on a colour edge"],
  ["bodyLine", "seam on a body line"],
  ["break", "seam in a break"],
];

/** What the strokes and hatches of the drawings mean. */
export function Legend(): ReactNode {
  const name = useId();
  return (
    <ul className="draw-legend" aria-label="Legend">
      {seams.map(([kind, words]) => (
        <Entry key={kind} words={words}>
          <SeamStroke kind={kind} line={{ x1: 2, y1: 9, x2: 50, y2: 9 }} top={null} />
        </Entry>
      ))}
      <Entry words="teeth: this side lies on top">
        <SeamStroke kind="open" line={{ x1: 2, y1: 12, x2: 50, y2: 12 }} top="up" />
      </Entry>
      <Entry words="overlap">
        <Hatches name={name} />
        <rect className="draw-band" fill={`url(#${name}-lap)`} x={2} y={3} width={48} height={12} />
      </Entry>
      <Entry words="opening">
        <rect
          className="draw-opening-edge"
          fill={`url(#${name}-void)`}
          x={8}
          y={2}
          width={36}
          height={14}
          style={{ fill: `url(#${name}-void)` }}
        />
        <path className="draw-opening-cross" d="M8 2l36 14M44 2l-36 14" />
      </Entry>
      <Entry words="no seam here">
        <rect className="draw-zone draw-zone-never" x={6} y={3} width={40} height={12} />
      </Entry>
      <Entry words="seam better elsewhere">
        <rect className="draw-zone draw-zone-avoid" x={6} y={3} width={40} height={12} />
      </Entry>
      <Entry words="which way the roll runs">
        <DirectionArrow tail={{ x: 8, y: 9 }} head={{ x: 42, y: 9 }} />
      </Entry>
      <Entry words="on the roll: this edge is up">
        <path className="draw-up" d="M26 4l-7 8h14Z" />
      </Entry>
    </ul>
  );
}

function Entry({ words, children }: { readonly words: string; readonly children: ReactNode }) {
  return (
    <li>
      <svg className="draw-legend-mark" width={52} height={18} aria-hidden="true">
        {children}
      </svg>
      {words}
    </li>
  );
}
