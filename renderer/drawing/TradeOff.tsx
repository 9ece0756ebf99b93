import { type ReactNode, useId, useMemo, useRef, useState } from "react";
import { Figure } from "./Figure.tsx";
import { Hatches } from "./Hatches.tsx";
import type { Unit } from "./lengths.ts";
import { Mark } from "./Mark.tsx";
import type { PlanLayout } from "./model.ts";
import { Sheet } from "./Sheet.tsx";
import { type LayoutMark, tradeOffScene } from "./tradeOffScene.ts";
import { Unheard } from "./Unheard.tsx";
import { useRoom } from "./useRoom.ts";
import { useRoving } from "./useRoving.ts";

export interface TradeOffProps {
  readonly layouts: readonly PlanLayout[];
  /** Ids of the layouts that no other beats. */
  readonly frontier: readonly string[];
  readonly chosen: string;
  readonly selectedLayout: string | null;
  readonly onSelectLayout: (id: string) => void;
  readonly currency: string;
  readonly unit: Unit;
}

/** Waste, visible seams and cost of every layout at a glance. */
export function TradeOff(props: TradeOffProps): ReactNode {
  const { layouts, frontier, chosen, selectedLayout, onSelectLayout, currency, unit } = props;
  const scroll = useRef<HTMLDivElement>(null);
  const name = useId();
  const room = useRoom(scroll, 640);
  const [hovered, setHovered] = useState<string | null>(null);
  const scene = useMemo(
    () => tradeOffScene({ layouts, frontier, chosen, currency, unit }, room),
    [layouts, frontier, chosen, currency, unit, room],
  );
  const stops = useMemo(() => scene.marks.map((mark) => ({ id: mark.key, x: mark.x, y: mark.y })), [scene]);
  const select = (key: string | null): void => {
    const mark = scene.marks.find((one) => one.key === key);
    if (mark) onSelectLayout(mark.id);
  };
  const selectedKey = scene.marks.find((mark) => mark.id === selectedLayout)?.key ?? null;
  const { active, onKeyDown, setActive } = useRoving(scroll, stops, selectedKey, select);
  const bottom = scene.plot.y + scene.plot.height;
  const lastInk = (mark: LayoutMark): number => (mark.standing === "beaten" ? 0 : mark.key === selectedKey ? 2 : 1);
  const inOrder = [...scene.marks].sort((a, b) => lastInk(a) - lastInk(b));
  return (
    <div className="draw-scroll draw-trade" ref={scroll}>
      <Sheet
        width={scene.width}
        height={scene.height}
        role="radiogroup"
        says={`${layouts.length} layout${layouts.length === 1 ? "" : "s"} by visible seams, cost and waste`}
        onKeyDown={onKeyDown}
      >
        <Hatches name={name} />
        <Unheard>
          <text className="draw-text draw-text-quiet draw-text-end" x={scene.plot.x - 8} y={14}>
            cost
          </text>
          {scene.ticks.map((tick) => (
            <g key={tick.y}>
              <line
                className="draw-rule"
                x1={scene.plot.x}
                x2={scene.plot.x + scene.plot.width}
                y1={tick.y}
                y2={tick.y}
              />
              <text className="draw-text draw-text-figures draw-text-end" x={scene.plot.x - 8} y={tick.y} dy="0.35em">
                {tick.text}
              </text>
            </g>
          ))}
          {scene.columns.map((column) => (
            <g key={column.seams}>
              <line className="draw-column" x1={column.x} x2={column.x} y1={scene.plot.y} y2={bottom} />
              <text className="draw-text draw-text-start" x={column.x - 4} y={bottom + 18}>
                {column.seams === 1 ? "1 seam" : `${column.seams} seams`}
              </text>
            </g>
          ))}
          {scene.stairs && <path className="draw-stairs" d={scene.stairs} />}
          <WasteKey x={scene.plot.x + 14} y={bottom + 40} scale={scene.wasteScale} hatch={`url(#${name}-void)`} />
        </Unheard>
        {inOrder.map((mark) => (
          <Mark
            key={mark.key}
            id={mark.key}
            says={mark.says}
            kind={`layout draw-layout-${mark.standing}`}
            role="radio"
            ring={mark.hit}
            selected={mark.key === selectedKey}
            hovered={mark.key === hovered}
            active={mark.key === active}
            onSelect={select}
            onHover={setHovered}
            setActive={setActive}
          >
            <rect className="draw-hit draw-layout-ground" {...mark.hit} />
            <rect className="draw-ground" {...mark.ground} />
            {Math.abs(mark.costY - mark.y) > 1 && (
              <path className="draw-leader" d={`M${mark.x} ${mark.costY}L${mark.x + 8} ${mark.y}`} />
            )}
            <rect
              className="draw-waste-taken"
              fill={`url(#${name}-void)`}
              x={mark.x + 10}
              y={mark.y - 5}
              width={mark.taken}
              height={10}
            />
            <rect
              className="draw-waste-gaps"
              x={mark.x + 10 + mark.taken}
              y={mark.y - 5}
              width={mark.gaps}
              height={10}
            />
            <StandingMark mark={mark} />
            <text className="draw-text draw-text-figures draw-text-start" x={mark.textX} y={mark.y} dy="0.35em">
              <Figure text={mark.text} />
            </text>
          </Mark>
        ))}
      </Sheet>
    </div>
  );
}

/** Chosen: a diamond; on the frontier: a full dot; beaten: a small empty one. Each sits at its true cost. */
function StandingMark({ mark }: { readonly mark: LayoutMark }) {
  const { x, costY: y } = mark;
  if (mark.standing === "chosen")
    return <path className="draw-standing" d={`M${x} ${y - 7.5}l7.5 7.5l-7.5 7.5l-7.5 -7.5Z`} />;
  return <circle className="draw-standing" cx={x} cy={y} r={mark.standing === "frontier" ? 4.5 : 3} />;
}

function WasteKey(props: { x: number; y: number; scale: { percent: number; pixels: number }; hatch: string }) {
  const { x, y, scale, hatch } = props;
  return (
    <g>
      <text className="draw-text draw-text-quiet draw-text-start" x={x - 4} y={y} dy="0.35em">
        wasted:
      </text>
      <rect className="draw-waste-taken" fill={hatch} x={x + 50} y={y - 5} width={22} height={10} />
      <text className="draw-text draw-text-quiet draw-text-start" x={x + 77} y={y} dy="0.35em">
        margins, ends, bleed, overlap
      </text>
      <rect className="draw-waste-gaps" x={x + 255} y={y - 5} width={22} height={10} />
      <text className="draw-text draw-text-quiet draw-text-start" x={x + 282} y={y} dy="0.35em">
        gaps between pieces
      </text>
      <title>{`${scale.percent} % is ${Math.round(scale.pixels)} pixels long`}</title>
    </g>
  );
}
