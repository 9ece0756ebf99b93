import { type ReactNode, useId, useMemo, useRef } from "react";
import { Dimensions } from "./Dimensions.tsx";
import { DirectionArrow } from "./DirectionArrow.tsx";
import { type ElevationScene, elevationScene, elevationSize, fitElevation } from "./elevationScene.ts";
import type { SeamShape } from "./elevationShapes.ts";
import type { Frame } from "./frame.ts";
import { Hatches } from "./Hatches.tsx";
import { heldMarks } from "./held.ts";
import { means } from "./ids.ts";
import { Labels } from "./Labels.tsx";
import type { Unit } from "./lengths.ts";
import { Mark } from "./Mark.tsx";
import type { Elevation, Hold, PlanLayout } from "./model.ts";
import type { Stop } from "./neighbour.ts";
import { hitArea, middle, type Rectangle } from "./rectangle.ts";
import { ScaleMark } from "./ScaleBar.tsx";
import { SeamStroke } from "./SeamStroke.tsx";
import { Sheet } from "./Sheet.tsx";
import { scaleFor } from "./scale.ts";
import { Unheard } from "./Unheard.tsx";
import { useRoom } from "./useRoom.ts";
import { useRoving } from "./useRoving.ts";
import { useZoom } from "./useZoom.ts";

export interface ElevationDrawingProps {
  readonly elevation: Elevation;
  /** null while there is no plan: the elevation alone is drawn. */
  readonly layout: PlanLayout | null;
  readonly unit: Unit;
  /** All that bind the elevation; left out, its own. */
  readonly holds?: readonly Hold[] | undefined;
  readonly selectedId: string | null;
  readonly onSelect: (id: string | null) => void;
  readonly hoveredId: string | null;
  readonly onHover: (id: string | null) => void;
  /** Left out: as large as the room allows. */
  readonly pixelsPerUnit?: number | undefined;
  /** Height in pixels that a drawing fitted by itself may take. */
  readonly maxHeight?: number | undefined;
  readonly onPixelsPerUnit?: ((next: number) => void) | undefined;
  /** Drawn on the paper inside the outline, under all lines. */
  readonly under?: ((frame: Frame) => ReactNode) | undefined;
  /** Drawn over the zones and under the seams, whose strokes stay whole. */
  readonly between?: ((frame: Frame) => ReactNode) | undefined;
}

/** One elevation to scale, with its panels, seams, zones and dimensions. */
export function ElevationDrawing(props: ElevationDrawingProps): ReactNode {
  const { elevation, layout, unit, selectedId, onSelect, hoveredId, onHover, maxHeight = 520, holds } = props;
  const scroll = useRef<HTMLDivElement>(null);
  const name = useId();
  const room = useRoom(scroll);
  const pixels = props.pixelsPerUnit ?? fitElevation(elevation, layout, unit, room, maxHeight);
  const scene = useMemo(
    () => elevationScene(elevation, layout, unit, pixels, holds),
    [elevation, layout, unit, pixels, holds],
  );
  const stops = useMemo(() => stopsOf(scene), [scene]);
  const selectedHere = stops.find((stop) => means(selectedId, stop.id))?.id ?? null;
  const { active, onKeyDown, setActive } = useRoving(scroll, stops, selectedHere, onSelect);
  useZoom(scroll, pixels, props.onPixelsPerUnit);
  const actions = { onSelect, onHover, setActive };
  const state = (id: string) => ({
    selected: means(selectedId, id),
    hovered: means(hoveredId, id),
    active: active === id,
  });
  const count = scene.panels.length;
  const contents =
    layout === null
      ? "not split yet"
      : `${count} panel${count === 1 ? "" : "s"}, ${scene.seams.length} seam${scene.seams.length === 1 ? "" : "s"}`;
  return (
    <div className="draw-scroll" ref={scroll}>
      <Sheet
        width={scene.width}
        height={scene.height}
        role="group"
        says={`Elevation ${elevation.name || elevation.id}, ${elevationSize(elevation, unit)}, ${contents}`}
        onKeyDown={onKeyDown}
        onGround={() => onSelect(null)}
      >
        <Hatches name={name} />
        <g>
          {scene.panels.map(({ key, box }) => (
            <rect key={key} className="draw-bleed" {...box} />
          ))}
        </g>
        <path className="draw-paper" d={scene.outline} />
        <g className="draw-under" clipPath={`url(#${name}-outline)`}>
          {props.under?.(scene.frame)}
        </g>
        {scene.panels.map((panel) => (
          <Mark
            key={panel.key}
            id={panel.key}
            says={panel.says}
            kind={panel.role}
            ring={panel.box}
            {...state(panel.key)}
            {...actions}
          >
            <rect className="draw-hit" {...hitArea(panel.box)} />
            <rect className="draw-panel-face" {...panel.box} />
          </Mark>
        ))}
        <g clipPath={`url(#${name}-outline)`}>
          {scene.openings.map((opening) => (
            <Opening
              key={opening.id}
              path={opening.path}
              box={opening.box}
              hatch={`url(#${name}-void)`}
              clip={`${name}-${opening.id}`}
            />
          ))}
        </g>
        <mask id={`${name}-film`} maskUnits="userSpaceOnUse" x={0} y={0} width={scene.width} height={scene.height}>
          <rect width={scene.width} height={scene.height} fill="white" />
          {scene.openings.map((opening) => (
            <path key={opening.id} d={opening.path} fill="black" />
          ))}
        </mask>
        <clipPath id={`${name}-outline`}>
          <path d={scene.outline} />
        </clipPath>
        <path className="draw-outline" d={scene.outline} />
        {scene.faint.map((mark) => (
          <line key={mark.key} className={`draw-faint draw-faint-${mark.kind}`} {...mark.line}>
            <title>{mark.says}</title>
          </line>
        ))}
        {scene.edgePaths.map((edge) => (
          <path key={edge.key} className="draw-edge-path" d={edge.path}>
            <title>{edge.says}</title>
          </path>
        ))}
        {scene.found.map((section) => (
          <path key={section.key} className="draw-found" d={section.brackets}>
            <title>{section.says}</title>
          </path>
        ))}
        {scene.freeOfSeams.map((stretch) => (
          <path key={stretch.key} className="draw-free-of-seams" d={stretch.path}>
            <title>{stretch.says}</title>
          </path>
        ))}
        {scene.zones.map((zone) => (
          <Mark
            key={zone.key}
            id={zone.key}
            says={zone.says}
            kind={`zone-${zone.kind}`}
            ring={zone.box}
            {...state(zone.key)}
            {...actions}
          >
            <rect className={`draw-zone draw-zone-${zone.rule}`} {...zone.box} />
            <rect className={zone.kind === "obstacle" ? "draw-hit" : "draw-hit-edge"} {...hitArea(zone.box)} />
          </Mark>
        ))}
        {props.between?.(scene.frame)}
        {scene.seams.map((seam) => (
          <Mark
            key={seam.key}
            id={seam.key}
            says={seam.says}
            kind="seam-mark"
            ring={ringOf(seam)}
            {...state(seam.key)}
            {...actions}
          >
            <g mask={`url(#${name}-film)`}>
              {seam.bands.map((band) => (
                <rect key={`${band.x} ${band.y}`} className="draw-band" fill={`url(#${name}-lap)`} {...band} />
              ))}
            </g>
            <line className="draw-hit-line" {...seam.line} />
            <SeamStroke mask={`url(#${name}-film)`} kind={seam.kind} line={seam.line} top={seam.top} />
            {seam.held ? <path className="draw-held" d={heldMarks(seam.line)} /> : null}
          </Mark>
        ))}
        {scene.arrows.map((arrow) => (
          <DirectionArrow key={arrow.key} tail={arrow.tail} head={arrow.head} />
        ))}
        <Labels labels={scene.labels} />
        <Labels labels={scene.labelsOver} ground="halo" />
        <Dimensions dimensions={scene.dimensions} />
        {scene.front && <FrontArrow {...scene.front} />}
        <ScaleMark scale={scaleFor(pixels, unit)} x={scene.outlineBox.x} y={scene.height - 10} />
      </Sheet>
    </div>
  );
}

function Opening({ path, box, hatch, clip }: { path: string; box: Rectangle; hatch: string; clip: string }) {
  const { x, y, width, height } = box;
  return (
    <Unheard className="draw-opening">
      <clipPath id={clip}>
        <path d={path} />
      </clipPath>
      <path d={path} fill={hatch} />
      <path
        className="draw-opening-cross"
        clipPath={`url(#${clip})`}
        d={`M${x} ${y}l${width} ${height}M${x + width} ${y}l${-width} ${height}`}
      />
      <path className="draw-opening-edge" d={path} />
    </Unheard>
  );
}

const turnOf = { right: 0, down: 90, left: 180, up: 270 } as const;

function FrontArrow({ way, box }: NonNullable<ElevationScene["front"]>) {
  const y = box.y + box.height / 2;
  const after = way === "right";
  const tip = after ? box.x + box.width - 11 : box.x + 11;
  return (
    <g className="draw-front">
      <path transform={`translate(${tip} ${y}) rotate(${turnOf[way]})`} d="M10 0L-4 -6V6Z" />
      <text
        className={`draw-text ${after ? "draw-text-end" : "draw-text-start"}`}
        x={after ? tip - 12 : tip + 16}
        y={y}
        dy="0.35em"
      >
        front
      </text>
    </g>
  );
}

function ringOf({ line }: SeamShape): Rectangle {
  return {
    x: Math.min(line.x1, line.x2) - 4,
    y: Math.min(line.y1, line.y2) - 4,
    width: Math.abs(line.x2 - line.x1) + 8,
    height: Math.abs(line.y2 - line.y1) + 8,
  };
}

function stopsOf(scene: ElevationScene): Stop[] {
  return [
    ...scene.panels.map(({ key, box }) => ({ id: key, ...middle(box) })),
    ...scene.seams.map(({ key, line }) => ({ id: key, x: (line.x1 + line.x2) / 2, y: (line.y1 + line.y2) / 2 })),
    ...scene.zones.map(({ key, box }) => ({ id: key, ...middle(box) })),
  ];
}
