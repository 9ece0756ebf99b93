import { expect, test } from "vitest";
import { linesOf } from "../../../renderer/host/lines.ts";
import { cautionsFor } from "../../../renderer/state/cautions.ts";
import { edit, redo, undo } from "../../../renderer/state/history.ts";
import { showLength } from "../../../renderer/state/lengths.ts";
import { linkedWith } from "../../../renderer/state/links.ts";
import { isWithin, pathOf, putAt, stepsOf, valueAt } from "../../../renderer/state/path.ts";
import { sameJson } from "../../../renderer/state/same.ts";
import { gapWords, layoutTitle, layoutWay, placeWords, stepWords } from "../../../renderer/state/words.ts";
import { JobFile } from "../../../shared/jobFile.ts";
import { boothJob, boothPlan } from "./standInHost.ts";

test("a path is read and written back, and leads to its value", () => {
  const path = "elevations[0].keepClear[0].box[2]";
  expect(stepsOf(path)).toEqual(["elevations", 0, "keepClear", 0, "box", 2]);
  expect(pathOf(stepsOf(path))).toBe(path);
  expect(valueAt(boothJob(), path)).toBe(52);
  const made = {};
  putAt(made, "films[0].name", "White");
  expect(made).toEqual({ films: [{ name: "White" }] });
  expect(isWithin("rules.overlap", "rules")).toBe(true);
  expect(isWithin("rules.overlapped", "rules.overlap")).toBe(false);
});

test("undo gives the job back as it was, redo as it had become, and an edit of nothing is no step", () => {
  const job = boothJob();
  const none = { done: [], undone: [] };
  const first = edit(job, none, "Overlap", (draft) => putAt(draft, "rules.overlap", 2));
  const second = edit(first.job, first.past, "Name", (draft) => putAt(draft, "name", "Other"));
  expect(second.past.done.map(({ label }) => label)).toEqual(["Overlap", "Name"]);
  const back = undo(second.job, second.past);
  expect(back?.job).toEqual(first.job);
  expect(redo(back?.job ?? {}, back?.past ?? none)?.job).toEqual(second.job);
  const again = undo(back?.job ?? {}, back?.past ?? none);
  expect(sameJson(again?.job, boothJob())).toBe(true);
  expect(undo(again?.job ?? {}, again?.past ?? none)).toBeNull();
  expect(edit(job, none, "Nothing", (draft) => putAt(draft, "name", job.name)).past).toBe(none);
});

test("keys that nobody knows survive an edit", () => {
  const job = { ...boothJob(), bakersNote: { yeast: [1, 2] } };
  const { job: next } = edit(job, { done: [], undone: [] }, "Name", (draft) => putAt(draft, "name", "Other"));
  expect(next.bakersNote).toEqual({ yeast: [1, 2] });
});

test("a panel is linked with every copy on the film and their cuts, a copy with its own cut alone", () => {
  const layout = boothPlan().layouts[0] ?? null;
  const panel = linkedWith(layout, "panel:A/1");
  expect([...panel].filter((name) => name.startsWith("piece:"))).toEqual(["piece:A/1#1", "piece:A/1#2"]);
  expect([...panel].filter((name) => name.startsWith("cut:"))).toHaveLength(2);
  const piece = linkedWith(layout, "piece:A/1#2");
  expect(piece.has("panel:A/1")).toBe(true);
  expect([...piece].filter((name) => name.startsWith("cut:"))).toHaveLength(1);
  expect(linkedWith(layout, null).size).toBe(0);
});

test("cautions are met by what is on the elevation, and only then", () => {
  const bare = JobFile.parse({ ...boothJob(), name: "Booth" });
  const lamp = { id: "l1", kind: "lamp", box: [1, 1, 2, 2] };
  const job = boothJob();
  const first = (job.elevations as Record<string, unknown>[])[0] ?? {};
  first.obstacles = [lamp];
  const met = cautionsFor(JobFile.parse(job)).find(({ id }) => id === "lamps");
  expect(cautionsFor(bare).some(({ id }) => id === "lamps")).toBe(false);
  expect(met?.says).toBe("Cut round every lamp and reflector; do not tint a lens.");
  expect(met?.at).toEqual(["zone:A/obstacle/l1"]);
});

test("a problem's place is said by name where there is one", () => {
  expect(placeWords("elevations[0].keepClear[0].box", boothJob())).toBe("Elevation Long side, keep-clear word, box");
  expect(placeWords("films[1].rollWidths")).toBe("Film 2, roll width");
});

test("events are read line by line however they are cut on their way", async () => {
  const bytes = new TextEncoder().encode('{"a":"é"}\n\n{"b":2}\n{"c":3}');
  const stream = new ReadableStream<Uint8Array>({
    start(controller) {
      for (const byte of bytes) controller.enqueue(new Uint8Array([byte]));
      controller.close();
    },
  });
  const lines: string[] = [];
  for await (const line of linesOf(stream)) lines.push(line);
  expect(lines).toEqual(['{"a":"é"}', '{"b":2}', '{"c":3}']);
});

test("layouts and steps of the search read as words, whatever their ids hold", () => {
  const [layout] = boothPlan().layouts;
  if (layout === undefined) throw new Error("The hand-made plan has no layout.");
  const named = { ...layout, id: "54in-horizontal-low-cost" };
  expect(layoutTitle(named, "in")).toBe("30 in, both ways");
  expect(layoutWay(named)).toBe("for lowest cost");
  expect(layoutWay({ ...layout, id: "1371.6mm-vertical-fewest-seams" })).toBe("for fewest seams");
  expect(stepWords("54in-horizontal")).toBe("54 in, horizontal");
  expect(stepWords("1371.6mm-vertical-hidden-seams")).toBe("1371.6 mm, vertical, for hidden seams");
  expect(stepWords("Reading the job")).toBe("Reading the job");
});

test("the gap is a share of the layout's own cost and is told as what could be saved", () => {
  const bound = { cost: 50, filmArea: 1, gapPercent: 50, proven: false, by: "area" };
  expect(gapWords(bound)).toBe("at most 50.0 % could be saved");
  expect(gapWords({ ...bound, proven: true })).toBe("proven least cost");
});

test("thousands are parted by a comma in inches, from five digits by a thin blank in millimetres", () => {
  expect(showLength(8745.5, "in")).toBe("8,745 1/2");
  expect(showLength(945.5, "in")).toBe("945 1/2");
  expect(showLength(2394, "mm")).toBe("2394");
  expect(showLength(12394.5, "mm")).toBe("12\u202f394.5");
});
