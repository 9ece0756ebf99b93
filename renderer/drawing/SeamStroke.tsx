import type { SeamKind } from "./model.ts";
import { beside, type Line, lapTeeth, strokesByKind, type TopSide } from "./strokes.ts";

/** A seam's line in the stroke of its kind, with the teeth of its lap. Used by the drawing and by its legend. */
export function SeamStroke({
  kind,
  line,
  top,
  mask,
}: {
  readonly kind: SeamKind;
  readonly line: Line;
  readonly top: TopSide | null;
  /** Where film is: a seam is not drawn across an opening. */
  readonly mask?: string;
}) {
  return (
    <g className={`draw-seam draw-seam-${kind}`} mask={mask}>
      {strokesByKind[kind].map((stroke) => (
        <line
          key={stroke.offset}
          {...beside(line, stroke.offset)}
          strokeWidth={stroke.width}
          strokeDasharray={stroke.dash ?? undefined}
        />
      ))}
      {top && <path className="draw-lap" d={lapTeeth(line, top)} />}
    </g>
  );
}
