import { useContext } from "react";
import { useStore } from "zustand";
import { createStore, type StoreApi } from "zustand/vanilla";
import {
  type Box,
  base64From,
  cellsOver,
  MOST_CELLS,
  type SeamMap,
  seamVisibilityInParts,
  TICKS_PER,
  type Ticks,
  ticksTo,
  type Unit,
} from "../../core/index.ts";
import { SheetContext } from "../state/context.ts";
import type { Sheet } from "../state/sheet.ts";
import { lengthWithUnit } from "../state/words.ts";
import { firstPlacing, lay, type Placing } from "./placing.ts";
import { type DecodedPicture, readPicture } from "./readPicture.ts";

/** What this window knows of one elevation's artwork. Only the map goes into the job; pictures stay in memory. */
export interface Artwork {
  readonly loaded: (DecodedPicture & { readonly placing: Placing }) | null;
  readonly isLoading: boolean;
  /** Why the last file was not taken, or the map not read. */
  readonly fault: string | null;
  /** How far the reading of the map has come. */
  readonly reading: { readonly done: number; readonly of: number } | null;
  readonly shows: Shown;
  /** Side of the map's cells; null: the usual one. */
  readonly cell: Ticks | null;
}

export interface Shown {
  readonly picture: boolean;
  /** For seams of which axis the heat is drawn. */
  readonly heat: "none" | "x" | "y";
  readonly trim: boolean;
}

export const noArtwork: Artwork = {
  loaded: null,
  isLoading: false,
  fault: null,
  reading: null,
  shows: { picture: true, heat: "none", trim: true },
  cell: null,
};

/** By elevation id. */
type ArtworkState = Readonly<Record<string, Artwork>>;

export interface ArtworkShelf {
  readonly store: StoreApi<ArtworkState>;
  readonly take: (elevation: string, file: File, box: Box) => Promise<void>;
  readonly place: (elevation: string, placing: Placing) => void;
  readonly show: (elevation: string, part: Partial<Shown>) => void;
  readonly setCell: (elevation: string, cell: Ticks) => void;
  readonly putAway: (elevation: string) => void;
  /** Reads the map and writes it into the job as one edit. */
  readonly read: (elevation: string, box: Box, unit: Unit) => Promise<void>;
  readonly stopReading: (elevation: string) => void;
  readonly removeMap: (elevation: string) => void;
}

/** An inch, or 25 mm: about as wide as an overlap, so that a seam can tell one place from the next. */
export const usualCell = (unit: Unit): Ticks => (unit === "in" ? TICKS_PER.in : 25 * TICKS_PER.mm);

/** As text in the job each cell takes nearly three characters; beyond this a job file grows out of hand. */
const mostCells = 1_000_000;

/** Why a map of such cells can't be had; null when it can. */
export function cellFault(box: Box, cell: Ticks): string | null {
  const { columns, rows } = cellsOver(box, cell);
  if (columns <= MOST_CELLS && rows <= MOST_CELLS && columns * rows <= mostCells) return null;
  return `That makes ${columns.toLocaleString("en")} by ${rows.toLocaleString("en")} cells, too many for a job. Take larger ones.`;
}

const shelves = new WeakMap<Sheet, ArtworkShelf>();

/** The pictures of a sheet's job. They go when another job takes the sheet. */
export function artworkOf(sheet: Sheet): ArtworkShelf {
  const known = shelves.get(sheet);
  if (known !== undefined) return known;
  const shelf = shelfOf(sheet);
  shelves.set(sheet, shelf);
  return shelf;
}

/** At least so long between two pauses, in milliseconds: short enough that the window never stands still. */
const stride = 24;
const pause = (): Promise<void> => new Promise((done) => setTimeout(done, 0));

function shelfOf(sheet: Sheet): ArtworkShelf {
  const store = createStore<ArtworkState>(() => ({}));
  const of = (elevation: string): Artwork => store.getState()[elevation] ?? noArtwork;
  const change = (elevation: string, part: Partial<Artwork>): void =>
    store.setState((state) => ({ ...state, [elevation]: { ...(state[elevation] ?? noArtwork), ...part } }), true);
  /** The last reading of each elevation; an older one that still runs finds itself replaced and ends. */
  const readings = new Map<string, symbol>();
  let forJob = 0;

  sheet.store.subscribe((state, before) => {
    // Only another job that takes the sheet leaves nothing to undo and nothing to do again.
    const { done, undone } = state.history;
    const isOther = state.document?.job !== before.document?.job && done.length + undone.length === 0;
    if (!isOther) return;
    forJob += 1;
    readings.clear();
    store.setState({}, true);
  });

  const stopReading = (elevation: string): void => {
    readings.delete(elevation);
    change(elevation, { reading: null });
  };

  return {
    store,
    take: async (elevation, file, box) => {
      const begun = forJob;
      stopReading(elevation);
      change(elevation, { isLoading: true, fault: null });
      const read = await readPicture(file);
      if (begun !== forJob) return;
      if ("why" in read) change(elevation, { isLoading: false, fault: read.why });
      else {
        const placing = firstPlacing(read.picture, box);
        change(elevation, { isLoading: false, loaded: { ...read, placing } });
      }
    },
    place: (elevation, placing) => {
      const { loaded } = of(elevation);
      if (loaded !== null) change(elevation, { loaded: { ...loaded, placing }, fault: null });
    },
    show: (elevation, part) => change(elevation, { shows: { ...of(elevation).shows, ...part } }),
    setCell: (elevation, cell) => change(elevation, { cell, fault: null }),
    putAway: (elevation) => {
      stopReading(elevation);
      change(elevation, { loaded: null, fault: null });
    },
    stopReading,
    read: async (elevation, box, unit) => {
      const { loaded, cell: chosen } = of(elevation);
      if (loaded === null) return;
      const cell = chosen ?? usualCell(unit);
      const laid = lay(loaded.placing, loaded.picture, box, unit);
      const fault = "why" in laid ? laid.why : cellFault(box, cell);
      if (fault !== null || "why" in laid) {
        change(elevation, { fault });
        return;
      }
      const mine = Symbol(elevation);
      readings.set(elevation, mine);
      const parts = seamVisibilityInParts(loaded.picture, laid.registration, cell, box);
      for (let begun = performance.now(); ; ) {
        const part = parts.next();
        if (part.done) {
          readings.delete(elevation);
          change(elevation, { reading: null, fault: null, shows: { ...of(elevation).shows, heat: "x" } });
          writeMap(sheet, elevation, part.value, loaded.name, unit);
          return;
        }
        if (performance.now() - begun < stride) continue;
        change(elevation, { reading: part.value });
        await pause();
        if (readings.get(elevation) !== mine) return;
        begun = performance.now();
      }
    },
    removeMap: (elevation) => {
      change(elevation, { shows: { ...of(elevation).shows, heat: "none" } });
      sheet.commands.edit("Remove the seam map", (draft) => {
        const entry = entryOf(draft, elevation);
        if (entry !== undefined) delete entry.seamMap;
      });
    },
  };
}

function entryOf(job: Record<string, unknown>, elevation: string): Record<string, unknown> | undefined {
  const list = Array.isArray(job.elevations) ? (job.elevations as Record<string, unknown>[]) : [];
  return list.find(({ id }) => id === elevation);
}

function writeMap(sheet: Sheet, elevation: string, map: SeamMap, picture: string, unit: Unit): void {
  const { x0, y0, cell, columns, rows } = map;
  sheet.commands.edit(`Seams read from ${picture}`, (draft) => {
    const entry = entryOf(draft, elevation);
    if (entry === undefined) return;
    entry.seamMap = {
      origin: [ticksTo(x0, unit), ticksTo(y0, unit)],
      cell: ticksTo(cell, unit),
      columns,
      rows,
      upright: base64From(map.upright),
      level: base64From(map.level),
      picture,
    };
  });
  const size = lengthWithUnit(ticksTo(cell, unit), unit);
  sheet.commands.notice(
    `Read from ${picture}: ${columns} by ${rows} cells of ${size}. The job is planned again with it.`,
  );
}

export function useShelf(): ArtworkShelf {
  const sheet = useContext(SheetContext);
  if (sheet === null) throw new Error("A view stands outside the sheet.");
  return artworkOf(sheet);
}

export const useArtwork = (elevation: string): Artwork =>
  useStore(useShelf().store, (state) => state[elevation] ?? noArtwork);
