import { type ReactNode, useId } from "react";
import { DirectionArrow } from "./DirectionArrow.tsx";
import { Hatches } from "./Hatches.tsx";
import { heldMarks } from "./held.ts";
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
      <Entry words="opening; on the roll, waste">
        <rect fill={`url(#${name}-void)`} x={8} y={2} width={36} height={14} style={{ fill: `url(#${name}-void)` }} />
        <rect className="draw-opening-edge" x={8} y={2} width={36} height={14} />
        <path className="draw-opening-cross" d="M8 2l36 14M44 2l-36 14" />
      </Entry>
      <Entry words="no seam here">
        <rect className="draw-zone draw-zone-never" x={6} y={3} width={40} height={12} />
      </Entry>
      <Entry words="seam better elsewhere">
        <rect className="draw-zone draw-zone-avoid" x={6} y={3} width={40} height={12} />
      </Entry>
      <Entry words="break or edge without a seam">
        <line className="draw-faint draw-faint-gap" x1={2} y1={5} x2={50} y2={5} />
        <line className="draw-faint draw-faint-bodyLine" x1={2} y1={9} x2={50} y2={9} />
        <line className="draw-faint draw-faint-colourEdge" x1={2} y1={13} x2={50} y2={13} />
      </Entry>
      <Entry words="held where it lies">
        <SeamStroke kind="open" line={{ x1: 8, y1: 9, x2: 44, y2: 9 }} top={null} />
        <path className="draw-held" d={heldMarks({ x1: 8, y1: 9, x2: 44, y2: 9 })} />
      </Entry>
      <Entry words="held free of seams">
        <path className="draw-free-of-seams" d="M8 6V12H44V6" />
      </Entry>
      <Entry words="corners of a section found">
        <path className="draw-found" d="M8 11V3H18M34 3H44V11" />
      </Entry>
      <Entry words="bleed, beyond the outline">
        <rect className="draw-bleed" x={3} y={2} width={46} height={14} />
        <rect className="draw-paper" x={9} y={6} width={34} height={10} />
        <path className="draw-outline" d="M9 16V6h34v10" />
      </Entry>
      <Entry words="which way the roll runs">
        <DirectionArrow tail={{ x: 8, y: 9 }} head={{ x: 42, y: 9 }} />
      </Entry>
      <Entry words="on the roll: cut across">
        <path className="draw-cut-line" d="M26 1v16" />
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
