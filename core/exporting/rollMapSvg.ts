import type { Point } from "../geometry/box.ts";
import type { Film, Instance, LoosePiece } from "../model/instance.ts";
import type { Layout, Load, Panel, PlacedPiece } from "../model/plan.ts";
import { formatLength } from "../units/formatLength.ts";
import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";
import { type Drawing, drawing, type Rectangle } from "./drawing.ts";
import { artworkTurn } from "./placedArtwork.ts";
import { escapeXml, fitText, textWidth } from "./svgText.ts";

/** Scales a drawing may have, as drawing offices use them: 1 : n. */
const scales = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
/** The longest load is drawn no longer than this on paper, millimetres, if a scale allows it. */
const longestOnPaper = 1000;
/** Millimetres on paper. */
const paper = { text: 2.5, title: 4, margin: 10, gap: 6, row: 4.5, narrowest: 180 };
const millimetresPer: Readonly<Record<Unit, number>> = { in: 25.4, mm: 1 };

/** What is known of everything on the rolls, and the sheet it is drawn on. One unit of the sheet is one of the job. */
interface Sheet {
  readonly draw: Drawing;
  readonly unit: Unit;
  /** Units of the job for a millimetre on paper. */
  readonly perPaper: number;
  readonly films: ReadonlyMap<string, Film>;
  readonly panels: ReadonlyMap<string, Panel>;
  readonly loose: ReadonlyMap<string, LoosePiece>;
  readonly leader: number;
  readonly trailer: number;
}

/**
 * Draws the loads of a layout true to scale as SVG, the feed running to the right: film, margins, leader, trailer, cuts
 * and pieces with names, sizes and dimension lines. One unit of the drawing is one unit of the job; width and height are
 * millimetres on paper at the scale that the title tells.
 *
 * @param loadId draw this load alone; left out, all of them
 * @returns the same text for the same layout; no reference to anything outside it
 * @throws RangeError if the layout has no load of that id
 *
 * Text that would touch other text, or does not fit its piece, gives way: first the name, then the size.
 */
export function rollMapSvg(instance: Instance, layout: Layout, loadId?: string): string {
  const loads = loadId === undefined ? layout.rolls : layout.rolls.filter(({ id }) => id === loadId);
  if (loadId !== undefined && loads.length === 0) throw new RangeError(`layout ${layout.id} has no load ${loadId}`);
  const { unit } = instance;
  const to = (ticks: Ticks): number => ticksTo(ticks, unit);
  const longest = Math.max(0, ...loads.map(({ used }) => to(used)));
  const scale = scales.find((one) => (longest * millimetresPer[unit]) / one <= longestOnPaper) ?? 1000;
  const perPaper = scale / millimetresPer[unit];
  const draw = drawing(paper.text * perPaper, unit === "in" ? 5 : 3);
  const sheet: Sheet = {
    draw,
    unit,
    perPaper,
    films: new Map(instance.films.map((film) => [film.id, film])),
    panels: new Map(layout.panels.map((panel) => [panel.id, panel])),
    loose: new Map(instance.pieces.map((piece) => [piece.id, piece])),
    leader: to(instance.rules.leader),
    trailer: to(instance.rules.trailer),
  };
  const [margin, left] = [paper.margin * perPaper, (paper.margin + 8) * perPaper];
  const width = Math.max(paper.narrowest * perPaper, left + longest + margin);
  let y = drawHead(sheet, instance.name, layout, scale, width);
  for (const load of loads) y = drawLoad(sheet, load, left, y, width);
  const height = drawLegend(sheet, margin, y, width) + margin;

  const { n } = draw;
  const stroke = (millimetres: number): string => n(millimetres * perPaper);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" class="roll-map" width="${n(width / perPaper)}mm" height="${n(height / perPaper)}mm" viewBox="0 0 ${n(width)} ${n(height)}" font-family="Inter, sans-serif" font-size="${n(paper.text * perPaper)}" fill="#111">`,
    `<title>${escapeXml(`Roll map: ${instance.name}, layout ${layout.id}`)}</title>`,
    "<defs>",
    `<pattern id="roll-map-waste" width="${stroke(2)}" height="${stroke(2)}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V${stroke(2)}" stroke="#777" stroke-width="${stroke(0.2)}"/></pattern>`,
    "</defs>",
    "<style>",
    ...styleRules(stroke).map((rule) => `.roll-map ${rule}`),
    "</style>",
    `<rect width="${n(width)}" height="${n(height)}" style="fill:#fff;stroke:none"/>`,
    ...draw.elements,
    "</svg>",
    "",
  ].join("\n");
}

/** Tints and strokes, all told apart without colour; `stroke` turns millimetres on paper into the sheet's unit. */
const styleRules = (stroke: (millimetres: number) => string): string[] => [
  `line,.roll-map rect,.roll-map path{stroke-width:${stroke(0.18)};stroke:#111;fill:none}`,
  ".film{fill:#fff}",
  ".waste{fill:url(#roll-map-waste);stroke:none}",
  `.margin{stroke:#777;stroke-dasharray:${stroke(1)} ${stroke(1)}}`,
  `.cut{stroke-width:${stroke(0.35)};stroke-dasharray:${stroke(4)} ${stroke(1)} ${stroke(0.8)} ${stroke(1)}}`,
  ".panel{fill:#eee}",
  ".fill{fill:#ccc}",
  ".loose{fill:#fafafa}",
  ".dimension{stroke:#444}",
  ".arrow{fill:#444;stroke:none}",
  ".solid{fill:#111;stroke:none}",
];

/** Title, scale and scale bar; returns where the next thing may begin. */
function drawHead({ draw, unit, perPaper }: Sheet, name: string, layout: Layout, scale: number, width: number): number {
  const [margin, title] = [paper.margin * perPaper, paper.title * perPaper];
  const room = width - 2 * margin;
  let y = margin + title;
  draw.text(fitText(`Roll map: ${name || "unnamed job"}`, title, room * 0.9), margin, y, { size: title, bold: true });
  y += paper.row * perPaper * 1.2;
  const facts = `Layout ${layout.id}. Scale 1:${scale}, lengths in ${unit === "in" ? "inches" : "millimetres"}. Print face up, feed to the right. Sizes: across × along.`;
  draw.text(fitText(facts, paper.text * perPaper, room), margin, y);
  y += paper.gap * perPaper;
  const step = niceStep((15 * scale) / millimetresPer[unit]);
  const high = 1.2 * perPaper;
  for (let i = 0; i < 4; i++) {
    const at = { x: margin + i * step, y, width: step, height: high };
    draw.rectangle(at, i % 2 === 0 ? 'class="bar" style="fill:#111"' : 'class="bar" style="fill:#fff"');
  }
  for (let i = 0; i <= 4; i++) {
    const words = i === 4 ? `${plain(4 * step)} ${unit}` : plain(i * step);
    draw.text(words, margin + i * step, y + high + paper.text * perPaper * 1.1, {
      anchor: i === 0 ? "start" : "middle",
    });
  }
  return y + (paper.gap + 4) * perPaper;
}

/** 1, 2 or 5 times a power of ten, at least `least`. */
function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].map((one) => one * power).find((step) => step >= least * (1 - 1e-9)) ?? 10 * power;
}

const plain = (value: number): string => String(Number(value.toFixed(3)));

/** One load with its heading and dimensions; returns where the next thing may begin. */
function drawLoad(sheet: Sheet, load: Load, left: number, top: number, sheetWidth: number): number {
  const { draw, unit, perPaper } = sheet;
  const to = (ticks: Ticks): number => ticksTo(ticks, unit);
  const say = (ticks: Ticks): string => formatLength(ticks, unit, { withUnit: false });
  const film = sheet.films.get(load.film);
  const pieces = load.cuts.reduce((sum, cut) => sum + cut.pieces.length, 0);
  const source = load.stock === null ? "new roll" : `stock ${load.stock}`;
  const lot = load.lot === null ? "" : `, lot ${load.lot}`;
  const heading = `Load ${load.id}: ${film?.name ?? load.film}, ${source}${lot}, ${say(load.width)} wide, ${say(load.used)} used, ${load.cuts.length} ${load.cuts.length === 1 ? "cut" : "cuts"}, ${pieces} ${pieces === 1 ? "piece" : "pieces"}`;
  const margin = paper.margin * perPaper;
  const headingY = top + paper.row * perPaper;
  draw.text(fitText(heading, paper.text * perPaper * 1.1, sheetWidth - 2 * margin), margin, headingY, {
    bold: true,
    size: paper.text * perPaper * 1.1,
  });

  const dimensionStep = 5 * perPaper;
  const filmTop = headingY + 2.4 * dimensionStep;
  const [across, used] = [to(load.width), to(load.used)];
  const bottom = filmTop + across;
  const x = (along: number): number => left + along;
  draw.rectangle({ x: left, y: filmTop, width: used, height: across }, 'class="film"');
  const ends: [number, number, string][] = [
    [0, Math.min(sheet.leader, used), "leader"],
    [Math.max(0, used - sheet.trailer), used, "trailer"],
  ];
  for (const [from, until, words] of ends) {
    if (until <= from) continue;
    draw.rectangle({ x: x(from), y: filmTop, width: until - from, height: across }, 'class="waste"');
    draw.line(x(from), filmTop, x(from), bottom, "");
    draw.line(x(until), filmTop, x(until), bottom, "");
    draw.dimension(
      { axis: "x", from: x(from), to: x(until), at: filmTop - dimensionStep, object: filmTop },
      `${words} ${plain(until - from)}`,
      plain(until - from),
    );
  }
  const edge = film === undefined ? 0 : to(film.edgeMargin);
  if (edge > 0) {
    draw.line(left, filmTop + edge, x(used), filmTop + edge, 'class="margin"');
    draw.line(left, bottom - edge, x(used), bottom - edge, 'class="margin"');
  }
  load.cuts.forEach((cut, index) => {
    const [from, until] = [x(to(cut.start)), x(to(cut.start + cut.length))];
    for (const place of cut.pieces) drawPiece(sheet, place, { left: from, top: filmTop });
    for (const at of [from, until]) draw.line(at, filmTop - perPaper, at, bottom + perPaper, 'class="cut"');
    draw.dimension({ axis: "x", from, to: until, at: filmTop - dimensionStep, object: filmTop }, say(cut.length));
    const words = [`cut ${index + 1}, from ${say(cut.start)}`, `cut ${index + 1}`, `${index + 1}`];
    const fitting = words.find((one) => textWidth(one) * paper.text * perPaper <= until - from);
    if (fitting !== undefined) draw.text(fitting, (from + until) / 2, bottom + 3.4 * perPaper, { anchor: "middle" });
  });
  draw.dimension(
    { axis: "x", from: left, to: x(used), at: bottom + 1.4 * dimensionStep, object: bottom },
    `used ${say(load.used)}`,
  );
  draw.dimension({ axis: "y", from: filmTop, to: bottom, at: left - dimensionStep, object: left }, say(load.width));
  return bottom + (1.4 * 5 + paper.gap + 2) * perPaper;
}

/** A piece where it lies, with its outline when it is loose, its size, its name and an arrow to the artwork's top. */
function drawPiece(sheet: Sheet, place: PlacedPiece, cut: { left: number; top: number }): void {
  const { draw, unit, perPaper } = sheet;
  const to = (ticks: Ticks): number => ticksTo(ticks, unit);
  // The feed runs to the right, so what lies at the roll's left edge lies at the top of the sheet.
  const box: Rectangle = {
    x: cut.left + to(place.y),
    y: cut.top + to(place.x),
    width: to(place.along),
    height: to(place.across),
  };
  const panel = sheet.panels.get(place.id) ?? null;
  const loose = sheet.loose.get(place.id);
  const name = `${place.id}${place.copy > 1 ? `, copy ${place.copy}` : ""}`;
  draw.add(`<g><title>${escapeXml(`${place.id}, copy ${place.copy}`)}</title>`);
  let outline: [number, number][] | null = null;
  if (panel === null && loose !== undefined) {
    outline = turnedOutline(loose.outline, place.turn).map(([x, y]) => [box.x + to(y), box.y + to(x)]);
    draw.add(`<path d="M${outline.map(([x, y]) => `${draw.n(x)} ${draw.n(y)}`).join("L")}Z" class="loose"/>`);
  } else draw.rectangle(box, `class="${panel?.role ?? "loose"}"`);
  draw.add("</g>");

  const inset = 4 * perPaper;
  const arrowed = outline === null && box.width >= 3 * inset && box.height >= 3 * inset;
  if (arrowed) drawArrow(sheet, box, artworkTurn(place, panel));
  const size = `${formatLength(place.across, unit, { withUnit: false })} × ${formatLength(place.along, unit, { withUnit: false })}`;
  const room = outline === null ? box : null;
  for (const words of [[name, size], [`${name}: ${size}`], [size]]) {
    if (drawLabel(sheet, words, box, arrowed ? inset : perPaper / 2, room === null ? outline : null)) return;
  }
}

/** Outline of a loose piece on the roll after turning, moved so that its box begins at 0, 0. */
function turnedOutline(outline: readonly Point[], turn: PlacedPiece["turn"]): [Ticks, Ticks][] {
  const turned = outline.map(({ x, y }): [Ticks, Ticks] =>
    turn === 0 ? [x, y] : turn === 90 ? [-y, x] : turn === 180 ? [-x, -y] : [y, -x],
  );
  const [x0, y0] = turned.reduce(([a, b], [x, y]) => [Math.min(a, x), Math.min(b, y)], [Infinity, Infinity]);
  return turned.map(([x, y]) => [x - x0, y - y0]);
}

/** Lines of text in the middle of a box, level or reading upward; false when neither way fits. */
function drawLabel(
  { draw, perPaper }: Sheet,
  lines: readonly string[],
  box: Rectangle,
  inset: number,
  inside: [number, number][] | null,
): boolean {
  const size = paper.text * perPaper;
  const [long, high] = [Math.max(...lines.map(textWidth)) * size, lines.length * size * 1.2];
  const [cx, cy] = inside === null ? [box.x + box.width / 2, box.y + box.height / 2] : middleOf(inside);
  for (const upward of [false, true]) {
    const [wide, tall] = upward ? [high, long] : [long, high];
    // The arrow stands in a corner: lines that end short of it along their own way may be as many as fit across.
    const [acrossX, acrossY] = upward ? [perPaper / 2, inset] : [inset, perPaper / 2];
    if (wide > box.width - 2 * acrossX || tall > box.height - 2 * acrossY) continue;
    if (inside !== null && !rectangleInside({ x: cx - wide / 2, y: cy - tall / 2, width: wide, height: tall }, inside))
      continue;
    const written = lines.map((line, index) => {
      const offset = (index - (lines.length - 1) / 2) * size * 1.2 + size * 0.35;
      return draw.text(line, upward ? cx + offset : cx, upward ? cy : cy + offset, { anchor: "middle", upward });
    });
    return written.includes(true);
  }
  return false;
}

const middleOf = (outline: readonly [number, number][]): [number, number] => {
  const sum = outline.reduce(([a, b], [x, y]) => [a + x, b + y], [0, 0]);
  return [sum[0] / outline.length, sum[1] / outline.length];
};

/** Whether a rectangle lies inside a polygon: no edge of the polygon passes through it and its middle is inside. */
function rectangleInside({ x, y, width, height }: Rectangle, outline: readonly [number, number][]): boolean {
  const [x1, y1] = [x + width, y + height];
  const [cx, cy] = [x + width / 2, y + height / 2];
  let inside = false;
  for (let i = 0; i < outline.length; i++) {
    const [ax, ay] = outline[i] as [number, number];
    const [bx, by] = outline[(i + 1) % outline.length] as [number, number];
    if (ay > cy !== by > cy && cx < ax + ((cy - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    // The part of the edge within the rectangle, as fractions of the edge; an empty range means it passes by.
    let [from, to] = [0, 1];
    for (const [start, step, low, high] of [
      [ax, bx - ax, x, x1],
      [ay, by - ay, y, y1],
    ] as const) {
      if (step === 0) {
        if (start < low || start > high) [from, to] = [1, 0];
        continue;
      }
      const [first, second] = [(low - start) / step, (high - start) / step];
      [from, to] = [Math.max(from, Math.min(first, second)), Math.min(to, Math.max(first, second))];
    }
    if (from < to) return false;
  }
  return inside;
}

/** A small arrow in the piece's corner that points to the top of the artwork. */
function drawArrow({ draw, perPaper }: Sheet, box: Rectangle, turn: 0 | 90 | 180 | 270): void {
  const [cx, cy] = [box.x + box.width - 2.4 * perPaper, box.y + box.height - 2.4 * perPaper];
  // Turn 0: the artwork's y runs along the feed, to the right of the sheet; each quarter counter-clockwise on the roll,
  // seen with the feed to the right, is one on the sheet too.
  const angle = (turn * Math.PI) / 180;
  const [dx, dy] = [Math.round(Math.cos(angle)), -Math.round(Math.sin(angle))];
  const at = (along: number, aside: number): string =>
    `${draw.n(cx + (along * dx - aside * dy) * perPaper)} ${draw.n(cy + (along * dy + aside * dx) * perPaper)}`;
  draw.add(
    `<path d="M${at(-1.4, 0)}L${at(0.4, 0)}"/>`,
    `<path d="M${at(1.4, 0)}L${at(0.2, 0.7)}L${at(0.2, -0.7)}Z" class="solid"/>`,
  );
}

/** What lines and tints mean, in as many rows as it takes; returns where it ends. */
function drawLegend({ draw, perPaper }: Sheet, left: number, top: number, sheetWidth: number): number {
  const entries: [string, string, string][] = [
    ["rect", 'class="panel"', "panel"],
    ["rect", 'class="fill"', "fill piece"],
    ["rect", 'class="loose"', "loose piece"],
    ["rect", 'class="waste"', "leader, trailer"],
    ["line", 'class="margin"', "edge margin"],
    ["line", 'class="cut"', "cut across the roll"],
    ["arrow", "", "top of the artwork"],
  ];
  const [swatch, high] = [7 * perPaper, 3 * perPaper];
  let [x, y] = [left, top + high];
  for (const [kind, attributes, words] of entries) {
    const wide = swatch + 2 * perPaper + textWidth(words) * paper.text * perPaper + 5 * perPaper;
    if (x + wide > sheetWidth - left && x > left) [x, y] = [left, y + paper.row * perPaper];
    const box = { x, y: y - high * 0.85, width: swatch, height: high };
    if (kind === "rect") {
      draw.rectangle(box, attributes);
      if (attributes.includes("waste")) draw.rectangle(box, "");
    } else if (kind === "line") draw.line(x, y - high / 3, x + swatch, y - high / 3, attributes);
    else drawArrow({ draw, perPaper } as Sheet, { ...box, height: high * 1.2 }, 90);
    draw.text(words, x + swatch + 2 * perPaper, y);
    x += wide;
  }
  return y + high / 2;
}
