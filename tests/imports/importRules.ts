import type { Import } from "./readImports.ts";

/** Rooms of the core that keep to themselves; they meet in core/solve.ts. */
export const rooms = [
  // Pictures to seam maps: knows cells and colours, nothing of how seams are then placed.
  "artwork",
  "choosing",
  "patterns",
  "panelling",
  "nesting",
  "rolls",
  "sequencing",
  // What fitters ask of a layout: slack, dimensions, why seams lie where they do, the datum sheet. Knows no other room.
  "fitting",
  "costing",
  "exporting",
  "programme",
  "verifying",
] as const;
type Room = (typeof rooms)[number];

/**
 * The few ways between rooms: rolls are filled by nesting; panelling and rolls may ask the programme port, rolls because
 * which loads hold the cuts is a bin packing that a programme settles; nesting may use patterns and the port, because
 * which cuts to use how often is a cutting problem solved by column generation.
 */
const doors: Partial<Record<Room, readonly Room[]>> = {
  rolls: ["nesting", "programme"],
  panelling: ["programme"],
  nesting: ["patterns", "programme"],
};

const openToAll = ["units", "geometry", "model"];

/** Which packages each folder may import, besides what Node brings (main/ alone). The most exact folder decides. */
export const packages: Readonly<Record<string, readonly string[]>> = {
  core: [],
  "core/programme": ["javascript-lp-solver"],
  "core/exporting": ["papaparse"],
  shared: ["zod"],
  renderer: ["react", "react-dom", "zustand", "immer", "d3-scale", "@expo-google-fonts/inter", "zod"],
  main: ["zod", "write-file-atomic", "tsx"],
  // The solver is loaded where the planning runs and handed in from there.
  "main/workers": ["highs", "tsx"],
  "main/electron": ["electron", "zod"],
  "main/launch": ["electron-vite", "vite", "tsx"],
  "electron.vite.config.ts": ["electron-vite", "vite", "@vitejs/plugin-react"],
};

const topOf = (path: string): string => path.split("/")[0] ?? path;
const roomOf = (path: string): string | null => /^core\/([^/]+)\//.exec(path)?.[1] ?? null;

/** Packages of the deepest folder listed above the file. */
function packagesFor(file: string): readonly string[] {
  const parts = file.split("/");
  for (let n = parts.length; n > 0; n--) {
    const listed = packages[parts.slice(0, n).join("/")];
    if (listed) return listed;
  }
  return [];
}

/** Why the import of a package is not allowed, or null. */
function packageFault({ from, to }: Import): string | null {
  if (to.startsWith("node:")) {
    const nodeIsThere = topOf(from) === "main" || from === "electron.vite.config.ts";
    return nodeIsThere ? null : `${from} imports ${to}: only main/ may use what Node brings`;
  }
  return packagesFor(from).includes(to) ? null : `${from} imports the package ${to}, which its folder does not list`;
}

/** Why an import between two files of core/ is not allowed, or null. */
function roomFault({ from, to, typesOnly }: Import): string | null {
  if (to === "core/index.ts") return `${from} imports ${to}: the core's own files do not go through its door`;
  const [here, there] = [roomOf(from), roomOf(to)];
  if (here === null) return null; // index.ts, solve.ts and what stands beside them chain the rooms
  if (there === null) return `${from} imports ${to}: rooms do not know what chains them`;
  if (here === there) return null;
  if (here === "verifying") {
    // The types that the model is made of are no geometry of the algorithms; their functions would be.
    const shapes = to === "core/geometry/box.ts" && typesOnly;
    const known = there === "units" || there === "model" || shapes;
    return known ? null : `${from} imports ${to}: the verifier knows units and model alone`;
  }
  if (openToAll.includes(here)) {
    return openToAll.includes(there) ? null : `${from} imports ${to}: units, geometry and model know no room`;
  }
  if (openToAll.includes(there) || doors[here as Room]?.includes(there as Room)) return null;
  return `${from} imports ${to}: the rooms of core/ meet in core/solve.ts`;
}

/** Why one import of a production file breaks the house plan, or null when it keeps it. */
export function faultOf(edge: Import): string | null {
  if (!edge.inProject) return packageFault(edge);
  const [here, there] = [topOf(edge.from), topOf(edge.to)];
  if (there === "tests") return `${edge.from} imports ${edge.to}: nothing but tests imports tests/`;
  if (here === there) return here === "core" ? roomFault(edge) : null;
  const allowed: Readonly<Record<string, readonly string[]>> = {
    core: ["shared"],
    shared: [],
    renderer: ["shared", "core"],
    main: ["shared", "core"],
  };
  if (!(allowed[here] ?? []).includes(there)) return `${edge.from} imports ${edge.to}: ${here} does not know ${there}/`;
  if (there === "core" && edge.to !== "core/index.ts") {
    return `${edge.from} imports ${edge.to}: outside core/, its one door is core/index.ts`;
  }
  return null;
}

/**
 * Cycles among files, each as the files in order with the first repeated at the end. One cycle per file that closes one;
 * an empty list means there is none.
 */
export function cyclesIn(imports: readonly Import[]): string[][] {
  const next = new Map<string, string[]>();
  for (const { from, to, inProject } of imports) {
    if (inProject) next.set(from, [...(next.get(from) ?? []), to]);
  }
  const state = new Map<string, "open" | "done">();
  const cycles: string[][] = [];
  const visit = (file: string, path: readonly string[]): void => {
    if (state.get(file) === "done") return;
    if (state.get(file) === "open") {
      cycles.push([...path.slice(path.indexOf(file)), file]);
      return;
    }
    state.set(file, "open");
    for (const to of next.get(file) ?? []) visit(to, [...path, file]);
    state.set(file, "done");
  };
  for (const file of next.keys()) visit(file, []);
  return cycles;
}
