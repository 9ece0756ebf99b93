import { expect, test } from "vitest";
import { cautionsFor } from "../../../renderer/state/cautions.ts";
import { cautionsAt } from "../../../renderer/state/cautionsAt.ts";
import { JobFile, KeepClearReason } from "../../../shared/jobFile.ts";

const rules = {
  bleed: 1,
  overlap: 1,
  colourEdgeOverlap: 0.25,
  trimOverlap: 4,
  cutGap: 0.5,
  leader: 10,
  trailer: 5,
};

/** A plain panel with something on it; nothing in its names calls for a caution by itself. */
const jobWith = (elevation: object, film: object = {}, name = "Job"): JobFile =>
  JobFile.parse({
    format: "lapwright-job",
    version: 1,
    name,
    units: "in",
    elevations: [
      { id: "a", name: "Side", film: "f", outline: [[0, 0], [90, 0], [90, 40], [0, 40]], ...elevation }, // biome-ignore format: one line
    ],
    films: [{ id: "f", name: "White", rollWidths: [54], ...film }],
    rules,
  });
const box = [10, 10, 20, 20];
const idsFor = (job: JobFile): string[] => cautionsFor(job).map(({ id }) => id);

test("a side with nothing on it calls for no caution", () => {
  expect(idsFor(jobWith({}))).toEqual([]);
});

test.each([
  ["lamp", "lamps"],
  ["side light", "lamps"],
  ["reflector", "lamps"],
  ["conspicuity tape", "conspicuity"],
  ["number plate", "plates"],
  ["emergency exit", "exits"],
  ["roof hatch", "exits"],
  ["placard", "placards"],
  ["parking sensor", "sensors"],
  ["camera", "sensors"],
  ["radar", "sensors"],
  ["handle", "parts"],
  ["mirror", "parts"],
  ["hinge", "parts"],
  ["hinge", "moving"],
  ["fuel flap", "flaps"],
  ["charging flap", "flaps"],
  ["charging flap", "moving"],
  ["airbag", "airbags"],
  ["vent", "vents"],
  ["grille", "vents"],
  ["grille", "sensors"],
  ["windscreen", "glazing"],
  ["exit sign", "doors"],
  ["tactile sign", "signs"],
  ["carrier name", "carrier"],
])("an obstacle of kind %s brings the caution on %s, beside the obstacle", (kind, caution) => {
  const job = jobWith({ obstacles: [{ id: "o", kind, box }] });
  const met = cautionsFor(job).find(({ id }) => id === caution);
  expect(met?.at).toEqual(["zone:a/obstacle/o"]);
  expect(met?.because).toBe(`${kind} ‘o’ on Side`);
  expect(cautionsAt(cautionsFor(job), "a").map(({ id }) => id)).toContain(caution);
});

/** Lettering, logos and faces are the shop's own; every other reason stands for something that law or use protects. */
const byReason: Record<(typeof KeepClearReason.options)[number], string | null> = {
  lettering: null,
  logo: null,
  face: null,
  plate: "plates",
  exit: "exits",
  placard: "placards",
  sensor: "sensors",
  other: null,
};

test.each(KeepClearReason.options)("a keep-clear zone for %s brings its caution", (reason) => {
  const job = jobWith({ keepClear: [{ id: "z", label: "Loaf and Rye", box, rule: "never", reason }] });
  const caution = byReason[reason];
  expect(idsFor(job)).toEqual(caution === null ? [] : [caution]);
});

test("a keep-clear zone for something else goes by what it is called, lettering never does", () => {
  const zone = { id: "z", label: "camera", box, rule: "never" };
  expect(idsFor(jobWith({ keepClear: [{ ...zone, reason: "other" }] }))).toEqual(["sensors"]);
  expect(idsFor(jobWith({ keepClear: [{ ...zone, reason: "lettering" }] }))).toEqual([]);
});

test("openings, names and films call for cautions too", () => {
  const outline = [[5, 5], [9, 5], [9, 9]]; // biome-ignore format: one line
  expect(idsFor(jobWith({ openings: [{ id: "window 1", outline }] }))).toEqual(["glazing"]);
  expect(idsFor(jobWith({ openings: [{ id: "vent", outline }] }))).toEqual(["vents"]);
  expect(idsFor(jobWith({ name: "Library bus, left" }))).toEqual(["exits", "moving"]);
  expect(idsFor(jobWith({ name: "Bakery trailer" }))).toEqual(["conspicuity"]);
  expect(idsFor(jobWith({ name: "Brick wall" }))).toEqual(["paint", "walls", "doors"]);
  expect(idsFor(jobWith({ name: "Clinic floor" }))).toEqual(["walls", "doors", "floors"]);
  expect(idsFor(jobWith({ name: "Tram-stop shelter, end pane" }))).toEqual(["signs", "glass"]);
  expect(idsFor(jobWith({}, { name: "Clear", joint: "butted" }))).toEqual(["glass"]);
  expect(idsFor(jobWith({}, {}, "Bakery trailer"))).toEqual(["conspicuity"]);
});

test("a caution met twice is said once, with the number of other places and what is behind it", () => {
  const obstacles = ["one", "two", "three"].map((id) => ({ id, kind: "lamp", box }));
  expect(cautionsFor(jobWith({ obstacles }))).toEqual([
    {
      id: "lamps",
      says: "Cut round every lamp and reflector; do not tint a lens.",
      source: "49 CFR 393.9(b), 393.25(b)",
      because: "lamp ‘one’ on Side, 2 more",
      at: ["zone:a/obstacle/one", "zone:a/obstacle/two", "zone:a/obstacle/three"],
    },
  ]);
});
