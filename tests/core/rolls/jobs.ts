import type { Elevation, Film, Heads, Instance, LoosePiece, Rules, StockEntry } from "../../../core/model/instance.ts";
import type { Load, Panel } from "../../../core/model/plan.ts";
import { type Run, seededRandom } from "../../../core/model/run.ts";

/** Small instances for tests; lengths in whole ticks of no particular size, so that arithmetic can be done by hand. */

export const rules: Rules = {
  bleed: 0,
  overlap: 0,
  colourEdgeOverlap: 0,
  trimOverlap: 0,
  cutGap: 1,
  leader: 10,
  trailer: 5,
  maxOpenSeams: null,
  seamPricePerLength: 0,
  avoidPenalty: 0,
  panelPrice: 0,
  oneLot: "elevation",
  sliverUnder: 0,
  keepLength: null,
  heightZones: [],
  artworkWeight: 4,
  leastSlack: 0,
  currency: "EUR",
};

export const film = (over: Partial<Film> = {}): Film => ({
  id: "cast",
  name: "Cast",
  rollWidths: [50],
  edgeMargin: 0,
  rollLength: null,
  maxRun: null,
  newRolls: null,
  laminateWidth: null,
  lengthFactor: 1,
  pricePerArea: 1,
  laminatePricePerArea: 0,
  inkPricePerArea: 0,
  lay: "one-way",
  joint: "lapped" as const,
  ...over,
});

export const elevation = (id: string, count = 1, over: Partial<Elevation> = {}): Elevation => ({
  id,
  name: id,
  count,
  subject: null,
  film: "cast",
  travel: "none",
  mirrorOf: null,
  mirror: "exact",
  findSections: false,
  heads: "same",
  ground: 0,
  straight: null,
  seamMap: null,
  holds: [],
  outline: [
    { x: 0, y: 0 },
    { x: 100, y: 0 },
    { x: 100, y: 100 },
    { x: 0, y: 100 },
  ],
  box: { x0: 0, y0: 0, x1: 100, y1: 100 },
  openings: [],
  sections: [
    {
      id: "whole",
      box: { x0: 0, y0: 0, x1: 100, y1: 100 },
      direction: "either",
      maxAcross: null,
      heads: "same" as const,
    },
  ],
  keepClear: [],
  breaks: [],
  colourEdges: [],
  obstacles: [],
  fill: [],
  bleed: { left: 0, right: 0, bottom: 0, top: 0, openings: 0 },
  ...over,
});

/** The parts of an elevation that make its one section, its fills and what is found lie by these heads. */
export const headed = (heads: Heads): Pick<Elevation, "heads" | "sections"> => ({
  heads,
  sections: elevation("any").sections.map((section) => ({ ...section, heads })),
});

/** An upright panel of this size; `x0` only ranks it among its neighbours. */
export const panel = (
  elevationId: string,
  number: number,
  across: number,
  along: number,
  x0 = number * 100,
): Panel => ({
  id: `${elevationId}/whole/${number}`,
  elevation: elevationId,
  section: "whole",
  role: "panel",
  film: "cast",
  direction: "vertical",
  window: { x0, y0: 0, x1: x0 + across, y1: along },
  across,
  along,
  slack: null,
});

export const loose = (
  id: string,
  wide: number,
  high: number,
  count = 1,
  over: Partial<LoosePiece> = {},
): LoosePiece => ({
  id,
  role: "decal",
  label: "",
  count,
  film: "cast",
  outline: [
    { x: 0, y: 0 },
    { x: wide, y: 0 },
    { x: wide, y: high },
    { x: 0, y: high },
  ],
  turn: "fixed",
  elevation: null,
  at: null,
  layer: 1,
  ...over,
});

export const roll = (id: string, length: number, over: Partial<StockEntry> = {}): StockEntry => ({
  id,
  film: "cast",
  lot: null,
  kind: "roll",
  width: 50,
  length,
  ...over,
});

export const job = (over: Partial<Instance> = {}): Instance => ({
  name: "Test",
  unit: "mm",
  elevations: [],
  pieces: [],
  films: [film()],
  stock: [],
  sameLot: [],
  rules,
  ...over,
});

export const run = (seed = 1): Run => ({
  random: seededRandom(seed),
  stop: () => false,
  report: () => undefined,
  work: null,
});

export const area = (rolls: readonly Load[]): number => rolls.reduce((sum, { width, used }) => sum + width * used, 0);

/** What is wrong with a laying, checked pair by pair and with nothing of the code under test. */
export function faults(
  instance: Instance,
  panels: readonly Panel[],
  rollWidth: number | null,
  rolls: readonly Load[],
): string[] {
  const found: string[] = [];
  const fail = (text: string) => found.push(text);
  const { leader, trailer, cutGap, oneLot } = instance.rules;
  const wanted = new Map<string, number>();
  for (const { id, elevation: of } of panels) {
    const copies = instance.elevations.find((e) => e.id === of)?.count ?? 0;
    for (let copy = 1; copy <= copies; copy++) wanted.set(`${id} ${copy}`, 0);
  }
  for (const { id, count } of instance.pieces) for (let copy = 1; copy <= count; copy++) wanted.set(`${id} ${copy}`, 0);
  const lots = new Map<string, Set<string>>();
  const shared = new Map<string, Set<string>>();
  const bought = new Map<string, number>();
  const taken = new Map<string, number>();
  for (const load of rolls) {
    const of = instance.films.find(({ id }) => id === load.film) as Film;
    const entry = load.stock === null ? null : (instance.stock.find(({ id }) => id === load.stock) ?? null);
    if (load.stock !== null && (entry?.film !== load.film || entry.width !== load.width || entry.lot !== load.lot)) {
      fail(`load ${load.id} is not of its stock`);
    }
    if (load.stock === null) {
      bought.set(of.id, (bought.get(of.id) ?? 0) + 1);
      if (!of.rollWidths.includes(load.width)) fail(`no new roll ${load.width} wide`);
      if (load.used > (of.rollLength ?? Infinity)) fail(`load ${load.id} longer than its roll`);
    } else taken.set(load.stock, (taken.get(load.stock) ?? 0) + load.used);
    if (load.used > (of.maxRun ?? Infinity)) fail(`load ${load.id} over the longest run`);
    if (load.cuts.length === 0) fail(`load ${load.id} is empty`);
    let end = leader;
    for (const [i, cut] of load.cuts.entries()) {
      if (i > 0) end += cutGap;
      if (cut.start !== end) fail(`cut ${load.id}:${i + 1} starts at ${cut.start}, not ${end}`);
      end = cut.start + cut.length;
      const placed = cut.pieces;
      if (placed.length === 0) fail("empty cut");
      if (Math.max(...placed.map(({ y, along }) => y + along)) !== cut.length)
        fail(`cut ${load.id}:${i + 1} longer than its pieces`);
      for (const [k, a] of placed.entries()) {
        if (a.x < of.edgeMargin || a.x + a.across > load.width - of.edgeMargin || a.y < 0)
          fail(`${a.id} off the printable width`);
        if (a.x + a.across - of.edgeMargin > (of.laminateWidth ?? Infinity)) fail(`${a.id} off the laminate`);
        for (const b of placed.slice(k + 1)) {
          const apart = Math.max(b.x - a.x - a.across, a.x - b.x - b.across, b.y - a.y - a.along, a.y - b.y - b.along);
          if (apart < cutGap) fail(`${a.id} and ${b.id} are ${apart} apart`);
        }
      }
      for (const piece of placed) {
        const key = `${piece.id} ${piece.copy}`;
        if (!wanted.has(key)) fail(`${key} is not wanted`);
        wanted.set(key, (wanted.get(key) ?? 0) + 1);
        const source = panels.find(({ id }) => id === piece.id);
        if (source !== undefined) {
          const e = instance.elevations.find(({ id }) => id === source.elevation) as Elevation;
          const heads = e.sections.find(({ id }) => id === source.section)?.heads ?? e.heads;
          const even = heads === "alternate" && Number(source.id.split("/").at(-1)) % 2 === 0;
          if (piece.turn !== (even ? 180 : 0)) fail(`${piece.id} turned by ${piece.turn}`);
          if (piece.across !== source.across || piece.along !== source.along) fail(`${piece.id} out of size`);
          if (rollWidth !== null && of.rollWidths.includes(rollWidth) && load.width !== rollWidth)
            fail(`${piece.id} on ${load.width}`);
          const group = oneLot === "subject" && e.subject !== null ? e.subject : e.id;
          const lot = entry === null ? "new" : (entry.lot ?? `entry ${entry.id}`);
          const name = `${of.id} ${group} ${piece.copy}`;
          lots.set(name, (lots.get(name) ?? new Set()).add(lot));
          for (const { id, elevations } of instance.sameLot) {
            if (!elevations.includes(e.id)) continue;
            const together = `${of.id} ${id} ${piece.copy}`;
            shared.set(together, (shared.get(together) ?? new Set()).add(lot));
          }
        } else {
          const drawn = instance.pieces.find(({ id }) => id === piece.id) as LoosePiece;
          const [wide, high] = [drawn.outline[2]?.x as number, drawn.outline[2]?.y as number];
          const turned = piece.turn === 90;
          if (turned && (of.lay !== "any" || drawn.turn !== "quarter")) fail(`${piece.id} may not be turned`);
          if (piece.across !== (turned ? high : wide) || piece.along !== (turned ? wide : high))
            fail(`${piece.id} out of size`);
        }
      }
    }
    if (load.used !== end + trailer) fail(`load ${load.id} uses ${load.used}, not ${end + trailer}`);
  }
  for (const [key, times] of wanted) if (times !== 1) fail(`${key} is placed ${times} times`);
  for (const of of instance.films) {
    if ((bought.get(of.id) ?? 0) > (of.newRolls ?? Infinity)) fail(`too many new rolls of ${of.id}`);
    const widths = new Set(
      rolls
        .filter(
          (load) =>
            load.film === of.id &&
            load.cuts.some(({ pieces }) => pieces.some(({ id }) => panels.some((p) => p.id === id))),
        )
        .map(({ width }) => width),
    );
    if (widths.size > 1) fail(`panels of ${of.id} on several widths`);
  }
  for (const { id, length } of instance.stock) if ((taken.get(id) ?? 0) > length) fail(`stock ${id} overdrawn`);
  if (oneLot !== "none") for (const [name, of] of lots) if (of.size > 1) fail(`${name} on lots ${[...of].join(", ")}`);
  for (const [name, of] of shared) if (of.size > 1) fail(`${name} on lots ${[...of].join(", ")}`);
  return found;
}
