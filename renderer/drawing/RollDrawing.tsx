import { type ReactNode, useId, useMemo, useRef, useState } from "react";
import { Dimensions } from "./Dimensions.tsx";
import { DirectionArrow } from "./DirectionArrow.tsx";
import { Figure } from "./Figure.tsx";
import { Hatches } from "./Hatches.tsx";
import { means } from "./ids.ts";
import { Labels } from "./Labels.tsx";
import { lengthText, TICKS_PER, type Ticks, type Unit } from "./lengths.ts";
import { Mark } from "./Mark.tsx";
import type { Film, LoosePiece, PlanLayout, PlanRoll, StockEntry } from "./model.ts";
import type { Stop } from "./neighbour.ts";
import { hitArea, middle, type Rectangle } from "./rectangle.ts";
import { rollLettering } from "./rollLettering.ts";
import { fitRoll, inView, type RollScene, rollScene, type View, viewFor } from "./rollScene.ts";
import { ScaleMark } from "./ScaleBar.tsx";
import { Sheet } from "./Sheet.tsx";
import { scaleFor } from "./scale.ts";
import { Unheard } from "./Unheard.tsx";
import { useFollow } from "./useFollow.ts";
import { useRoom } from "./useRoom.ts";
import { useRoving } from "./useRoving.ts";
import { useZoom } from "./useZoom.ts";

export interface RollDrawingProps {
  readonly layout: PlanLayout;
  readonly films: readonly Film[];
  readonly load: PlanRoll;
  readonly unit: Unit;
  readonly selectedId: string | null;
  readonly onSelect: (id: string | null) => void;
  readonly hoveredId: string | null;
  readonly onHover: (id: string | null) => void;
  /** Left out: the whole load where its width stays legible. */
  readonly pixelsPerUnit?: number | undefined;
  readonly onPixelsPerUnit?: ((next: number) => void) | undefined;
  /** With these, what is left on the roll is shown. */
  readonly stock?: readonly StockEntry[] | undefined;
  /** With these, loose pieces are drawn in their true outline. */
  readonly pieces?: readonly LoosePiece[] | undefined;
  /** The stretch of the load to draw, in ticks; left out, what the scrolled view shows. */
  readonly viewFrom?: Ticks | undefined;
  readonly viewTo?: Ticks | undefined;
}

/** One load along its length, true to scale; only what is in view is drawn. */
export function RollDrawing(props: RollDrawingProps): ReactNode {
  const { layout, films, load, unit, selectedId, onSelect, hoveredId, onHover, stock, pieces } = props;
  const scroll = useRef<HTMLDivElement>(null);
  const name = useId();
  const room = useRoom(scroll);
  const pixels = props.pixelsPerUnit ?? fitRoll(load, room);
  const scene = useMemo(
    () => rollScene({ layout, films, load, unit, stock, pieces }, pixels),
    [layout, films, load, unit, stock, pieces, pixels],
  );
  const [scrolled, setScrolled] = useState(0);
  const view = useMemo(
    () => viewOf(scene, unit, pixels, props.viewFrom, props.viewTo, scrolled, room),
    [scene, unit, pixels, props.viewFrom, props.viewTo, scrolled, room],
  );
  const several = useMemo(() => severalCopies(layout), [layout]);
  const lettering = useMemo(() => rollLettering(scene, view, unit, several), [scene, view, unit, several]);
  const stops = useMemo(() => stopsOf(scene), [scene]);
  const selectedHere = stops.find((stop) => means(selectedId, stop.id))?.id ?? null;
  const { active, onKeyDown, setActive } = useRoving(scroll, stops, selectedHere, onSelect);
  useFollow(scroll, scene, selectedHere);
  useZoom(scroll, pixels, props.onPixelsPerUnit);
  const actions = { onSelect, onHover, setActive };
  const state = (id: string) => ({
    selected: means(selectedId, id),
    hovered: means(hoveredId, id),
    active: active === id,
  });
  const shown = (key: string, box: Rectangle): boolean => inView(box, view) || key === active;
  const film = films.find((one) => one.id === load.film);
  const bottom = scene.body.y + scene.body.height;
  const source = load.stock === null ? "new roll" : `stock ${load.stock}`;
  return (
    <div
      className="draw-scroll"
      ref={scroll}
      onScroll={(event) => {
        const next = event.currentTarget.scrollLeft;
        // Only a new stretch is a new drawing.
        setScrolled((before) => (viewFor(before, room).from === viewFor(next, room).from ? before : next));
      }}
    >
      <Sheet
        width={scene.width}
        height={scene.height}
        role="group"
        says={`Load ${load.id}, ${source}, ${film?.name || load.film}, ${lengthText(scene.fullWidth, unit)} wide, ${lengthText(scene.used, unit)} used, ${scene.cuts.length} cuts, ${scene.pieces.length} pieces`}
        onKeyDown={onKeyDown}
        onGround={() => onSelect(null)}
      >
        <Hatches name={name} />
        <rect className="draw-roll" {...scene.body} />
        <rect className="draw-roll-void" fill={`url(#${name}-void)`} {...scene.body} />
        <EndStrip box={scene.leader} word="leader" />
        <EndStrip box={scene.trailer} word="trailer" />
        {scene.margins.map((y) => (
          <line key={y} className="draw-margin" x1={scene.body.x} x2={scene.body.x + scene.body.width} y1={y} y2={y} />
        ))}
        {scene.cuts.map((cut) =>
          shown(cut.key, cut.box) ? (
            <Mark key={cut.key} id={cut.key} says={cut.says} kind="cut" ring={cut.box} {...state(cut.key)} {...actions}>
              <rect className="draw-hit" {...hitArea({ ...cut.box, y: bottom, height: 30 })} />
              <rect className="draw-cut-face" {...cut.box} />
              <path
                className="draw-cut-line"
                d={`M${cut.box.x} ${scene.body.y - 8}V${bottom + 8}M${cut.box.x + cut.box.width} ${scene.body.y - 8}V${bottom + 8}`}
              />
            </Mark>
          ) : null,
        )}
        <path
          className="draw-roll-edge"
          d={`M${scene.body.x} ${scene.body.y}h${scene.body.width}M${scene.body.x} ${bottom}h${scene.body.width}M${scene.body.x} ${scene.body.y}V${bottom}`}
        />
        {scene.pieces.map((shape) =>
          shown(shape.key, shape.box) ? (
            <Mark
              key={shape.key}
              id={shape.key}
              says={shape.says}
              kind="piece"
              ring={shape.box}
              {...state(shape.key)}
              {...actions}
            >
              <rect className="draw-hit" {...hitArea(shape.box)} />
              {shape.path ? (
                <path className={`draw-piece-face draw-tint-${shape.tint}`} d={shape.path} />
              ) : (
                <rect className={`draw-piece-face draw-tint-${shape.tint}`} {...shape.box} />
              )}
              {shape.upMark && <path className="draw-up" d={shape.upMark} />}
            </Mark>
          ) : null,
        )}
        <Labels labels={lettering.labels} ground="on-tint" />
        <Labels labels={lettering.counters} />
        <Dimensions dimensions={lettering.dimensions} />
        <RestOfRoll scene={scene} unit={unit} />
        <ScaleMark scale={scaleFor(pixels, unit)} x={scene.left} y={scene.height - 8} />
        <Unheard className="draw-feed">
          <text className="draw-text draw-text-quiet draw-text-start" x={scene.left + 270} y={scene.height - 8}>
            feed
          </text>
          <DirectionArrow
            tail={{ x: scene.left + 302, y: scene.height - 12 }}
            head={{ x: scene.left + 342, y: scene.height - 12 }}
          />
        </Unheard>
      </Sheet>
    </div>
  );
}

function viewOf(
  scene: RollScene,
  unit: Unit,
  pixels: number,
  from: Ticks | undefined,
  to: Ticks | undefined,
  scrolled: number,
  room: number,
): View {
  const measured = viewFor(scrolled, room);
  const place = (ticks: Ticks): number => scene.left + (ticks / TICKS_PER[unit]) * pixels;
  return { from: from === undefined ? measured.from : place(from), to: to === undefined ? measured.to : place(to) };
}

/** Ids of pieces of which the layout holds more than one. */
function severalCopies(layout: PlanLayout): Set<string> {
  const found = new Set<string>();
  for (const load of layout.rolls) {
    for (const cut of load.cuts) for (const piece of cut.pieces) if (piece.copy > 1) found.add(piece.id);
  }
  return found;
}

function EndStrip({ box, word }: { readonly box: Rectangle; readonly word: string }) {
  if (box.width <= 0) return null;
  const { x, y } = middle(box);
  const reads = box.width >= 18 && box.height >= 60;
  return (
    <Unheard className="draw-end">
      <rect {...box} />
      {reads && (
        <text className="draw-text draw-text-quiet" transform={`translate(${x} ${y}) rotate(-90)`} dy="0.35em">
          {word}
        </text>
      )}
    </Unheard>
  );
}

/** The torn end beyond the load, with what is left on the roll. */
function RestOfRoll({ scene, unit }: { readonly scene: RollScene; readonly unit: Unit }) {
  const { body, rest } = scene;
  const x = body.x + body.width;
  const bottom = body.y + body.height;
  const teeth = Math.max(2, Math.round(body.height / 24) * 2);
  const step = body.height / teeth;
  const torn = Array.from({ length: teeth }, (_, index) => `l${index % 2 === 0 ? 6 : -6} ${step}`).join("");
  const words = rest === null ? null : rest.left > 0 ? `${lengthText(rest.left, unit)} left` : "used up";
  const from = rest?.stock ?? "new roll";
  return (
    <g className="draw-rest">
      <path className="draw-rest-film" d={`M${x} ${body.y}h22${torn}H${x}Z`} />
      <path className="draw-cut-line" d={`M${x} ${body.y - 8}V${bottom + 8}`} />
      {words && (
        <>
          <text className="draw-text draw-text-figures draw-text-start" x={x + 34} y={body.y + body.height / 2 - 2}>
            <Figure text={words} />
          </text>
          <text className="draw-text draw-text-quiet draw-text-start" x={x + 34} y={body.y + body.height / 2 + 13}>
            {from.length > 12 ? `${from.slice(0, 11)}…` : from}
            <title>{from}</title>
          </text>
        </>
      )}
    </g>
  );
}

function stopsOf(scene: RollScene): Stop[] {
  const bottom = scene.body.y + scene.body.height;
  return [
    ...scene.pieces.map(({ key, box }) => ({ id: key, ...middle(box) })),
    ...scene.cuts.map(({ key, box }) => ({ id: key, x: box.x + box.width / 2, y: bottom + 18 })),
  ];
}
