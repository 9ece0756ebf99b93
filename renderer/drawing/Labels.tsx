import { Figure } from "./Figure.tsx";
import { short } from "./frame.ts";
import { lineHeight, type PlacedLabel } from "./labels.ts";
import { Unheard } from "./Unheard.tsx";

interface LabelsProps {
  readonly labels: readonly PlacedLabel[];
  /** What lies under them: plain paper, a piece's tint, or lines that a halo keeps off. */
  readonly ground?: "paper" | "on-tint" | "halo";
}

/** Sets placed labels down. They are for the eye: what they name carries the full sentence. */
export function Labels({ labels, ground = "paper" }: LabelsProps) {
  return (
    <Unheard className={`draw-labels draw-${ground}`}>
      {labels.map(({ key, form, box }) => {
        const x = box.x + box.width / 2;
        const y = box.y + box.height / 2;
        const first = -((form.lines.length - 1) * lineHeight) / 2;
        return (
          <g key={key} transform={`translate(${short(x)} ${short(y)})${form.turned ? " rotate(-90)" : ""}`}>
            {form.lines.map((line, index) => (
              <text
                key={line.style}
                className={`draw-text draw-text-${line.style}`}
                y={first + index * lineHeight}
                dy="0.35em"
              >
                {line.style === "figures" ? <Figure text={line.text} /> : line.text}
              </text>
            ))}
          </g>
        );
      })}
    </Unheard>
  );
}
