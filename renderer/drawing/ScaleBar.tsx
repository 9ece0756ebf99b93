import { Figure } from "./Figure.tsx";
import type { Unit } from "./lengths.ts";
import { type Scale, scaleFor } from "./scale.ts";
import { Unheard } from "./Unheard.tsx";

/** The bar itself, for use inside a drawing: its low left corner at (x, y). */
export function ScaleMark({ scale, x, y }: { readonly scale: Scale; readonly x: number; readonly y: number }) {
  const part = scale.pixels / scale.parts;
  return (
    <Unheard className="draw-scale" transform={`translate(${x} ${y})`}>
      {partsOf(scale).map(({ x: start, full }) => (
        <rect
          key={start}
          className={full ? "draw-scale-full" : "draw-scale-blank"}
          x={start}
          y={-5}
          width={part}
          height={5}
        />
      ))}
      <text className="draw-text draw-text-figures draw-text-start" x={scale.pixels + 7} y={0}>
        <Figure text={scale.label} />
      </text>
    </Unheard>
  );
}

const partsOf = ({ parts, pixels }: Scale): { x: number; full: boolean }[] =>
  Array.from({ length: parts }, (_, index) => ({ x: (pixels * index) / parts, full: index % 2 === 0 }));

/** A scale bar by itself, for a drawing that sits elsewhere at the same scale. */
export function ScaleBar({ pixelsPerUnit, unit }: { readonly pixelsPerUnit: number; readonly unit: Unit }) {
  const scale = scaleFor(pixelsPerUnit, unit);
  return (
    <svg
      className="draw-scale-bar"
      width={scale.pixels + 110}
      height={20}
      role="img"
      aria-label={`Scale bar, ${scale.label}`}
    >
      <ScaleMark scale={scale} x={1} y={14} />
    </svg>
  );
}
