import { Figure } from "./Figure.tsx";
import type { Unit } from "./lengths.ts";
import { type Scale, scaleFor } from "./scale.ts";

/** The bar itself, for use inside a drawing: its low left corner at (x, y). */
export function ScaleMark({ scale, x, y }: { readonly scale: Scale; readonly x: number; readonly y: number }) {
  const part = scale.pixels / scale.parts;
  return (
    <g className="draw-scale" transform={`translate(${x} ${y})`} aria-hidden="true">
      {Array.from({ length: scale.parts }, (_, index) => (
        <rect
          key={`${index * part}`}
          className={index % 2 === 0 ? "draw-scale-full" : "draw-scale-blank"}
          x={index * part}
          y={-5}
          width={part}
          height={5}
        />
      ))}
      <text className="draw-text draw-text-figures draw-text-start" x={scale.pixels + 7} y={0}>
        <Figure text={scale.label} />
      </text>
    </g>
  );
}

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
