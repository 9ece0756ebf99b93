import { type Dimension, dimension } from "./dimensions.ts";
import { type LabelForm, type LabelLine, type LabelWish, type PlacedLabel, placeLabels } from "./labels.ts";
import { lengthText, type Unit } from "./lengths.ts";
import { panelNames, turned, upright } from "./panelForms.ts";
import { boxInPolygon } from "./polygon.ts";
import { grown } from "./rectangle.ts";
import { inView, type PieceShape, type RollScene, type View } from "./rollScene.ts";
import { sizeText } from "./words.ts";

export interface RollLettering {
  readonly labels: readonly PlacedLabel[];
  readonly counters: readonly PlacedLabel[];
  readonly dimensions: readonly Dimension[];
}

/** Name and size of a piece, then its name, then its size, then nothing; copies are told apart once there are several. */
export function pieceForms(shape: PieceShape, several: boolean, unit: Unit): LabelForm[] {
  const { piece, panel } = shape;
  const copy = several ? `, copy ${piece.copy}` : "";
  const name = (text: string): LabelLine => ({ text: text + copy, style: "name" });
  const size: LabelLine = { text: sizeText(piece.across, piece.along, unit), style: "figures" };
  const names = panel ? panelNames(panel) : { full: piece.id, section: piece.id, number: piece.id };
  return [
    upright([name(names.full), size]),
    turned([name(names.full), size]),
    upright([name(names.full)]),
    turned([name(names.full)]),
    upright([name(names.section)]),
    turned([name(names.section)]),
    upright([{ text: names.section, style: "name" }]),
    upright([size]),
    turned([size]),
    upright([{ text: names.number, style: "name" }]),
  ];
}

/** All lettering of the stretch in view: piece names, counter readings at the cuts, lengths of the cuts. */
export function rollLettering(scene: RollScene, view: View, unit: Unit, several: ReadonlySet<string>): RollLettering {
  const pieces = scene.pieces.filter((shape) => inView(shape.box, view));
  const cuts = scene.cuts.filter((cut) => inView(cut.box, view));
  const bottom = scene.body.y + scene.body.height;
  const labels = placeLabels(
    pieces.map(
      (shape): LabelWish => ({
        key: shape.key,
        room: grown(shape.box, -2),
        forms: pieceForms(shape, several.has(shape.piece.id), unit),
        allows: (box) => shape.path === null || boxInPolygon(shape.corners, box),
      }),
    ),
    pieces.filter((shape) => shape.upMark).map((shape) => grown(shape.markBox, 2)),
  );
  const reading = (key: string, x: number, ticks: number): LabelWish => ({
    key,
    room: { x: x - 60, y: scene.top - 24, width: 120, height: 16 },
    forms: [upright([{ text: lengthText(ticks, unit), style: "figures" }])],
    anchors: [[0.5, 0.5]],
  });
  const counters = placeLabels(
    [
      ...cuts.map((cut) => reading(`${cut.key}:start`, cut.box.x, cut.start)),
      ...cuts.map((cut) => reading(`${cut.key}:end`, cut.box.x + cut.box.width, cut.start + cut.length)),
      ...(scene.body.x + scene.body.width <= view.to
        ? [reading("used", scene.body.x + scene.body.width, scene.used)]
        : []),
    ],
    [],
  );
  const dimensions: Dimension[] = [];
  for (const cut of cuts) {
    const size = lengthText(cut.length, unit);
    const wish = {
      key: cut.key,
      axis: "x" as const,
      from: cut.box.x,
      to: cut.box.x + cut.box.width,
      at: bottom + 18,
      edge: bottom,
    };
    const made = dimension({ ...wish, text: `cut ${cut.number}: ${size}` }) ?? dimension({ ...wish, text: size });
    if (made) dimensions.push(made);
  }
  const whole = dimension({
    key: "used",
    text: `${lengthText(scene.used, unit)} used`,
    axis: "x",
    from: scene.body.x,
    to: scene.body.x + scene.body.width,
    at: bottom + 40,
    edge: bottom + 4,
    outside: true,
  });
  const across = dimension({
    key: "width",
    text: lengthText(scene.fullWidth, unit),
    axis: "y",
    from: scene.body.y,
    to: bottom,
    at: scene.body.x - 20,
    edge: scene.body.x,
    outside: true,
  });
  return { labels, counters, dimensions: [...dimensions, ...(whole ? [whole] : []), ...(across ? [across] : [])] };
}
