import { act, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import { beforeEach, expect, test, vi } from "vitest";
import { bytesFromBase64 } from "../../../core/index.ts";
import { ArtworkFold } from "../../../renderer/artwork/ArtworkFold.tsx";
import { readPicture } from "../../../renderer/artwork/readPicture.ts";
import { SheetContext } from "../../../renderer/state/context.ts";
import { createSheet } from "../../../renderer/state/sheet.ts";
import { JobFile } from "../../../shared/jobFile.ts";
import { showSheet, surroundings } from "./showSheet.tsx";
import { boothJob, boothPlan, opened, standInHost } from "./standInHost.ts";

// The stand-in page decodes no pictures; all that comes after decoding is the program's own.
vi.mock("../../../renderer/artwork/readPicture.ts", () => ({ readPicture: vi.fn() }));

/** 140 by 40 pixels over the booth's long side of 70 by 20 in: white, with level stripes over its middle fifth. */
function striped() {
  const [width, height] = [140, 40];
  const data = new Uint8ClampedArray(4 * width * height).fill(255);
  for (let y = 0; y < height; y++) {
    for (let x = 56; x < 84; x++) if (y % 4 < 2) data.fill(0, 4 * (y * width + x), 4 * (y * width + x) + 3);
  }
  return { name: "stripes.png", picture: { width, height, data }, href: "data:image/png;base64,AA==" };
}

beforeEach(() => {
  vi.mocked(readPicture).mockReset();
  vi.mocked(readPicture).mockImplementation(async () => striped());
});

// Reading goes on between pauses; on a busy machine the usual second is too short to wait for its end.
configure({ asyncUtilTimeout: 30_000 });

const file = new File(["picture"], "stripes.png", { type: "image/png" });

async function loadPicture(): Promise<void> {
  fireEvent.change(screen.getByLabelText(/^Picture of the artwork on/), { target: { files: [file] } });
  await screen.findByText(/px$/);
}

/** The whole window, planned, with the picture loaded on the long side. */
async function loadedInWindow() {
  const shown = await showSheet(boothJob());
  act(() => shown.standIn.finish({ status: "planned", plan: boothPlan(), warnings: [] }));
  fireEvent.click(screen.getByRole("button", { name: "Long side" }));
  await loadPicture();
  return shown;
}

/** The tools alone, of one elevation. */
async function tools(elevation: string) {
  const standIn = standInHost(opened(boothJob()));
  const sheet = createSheet(surroundings(standIn.host));
  await sheet.commands.start();
  const show = (id: string) => (
    <SheetContext value={sheet}>
      <ArtworkFold elevation={id} key={id} />
    </SheetContext>
  );
  const { rerender } = render(show(elevation));
  return { sheet, standIn, turnTo: (id: string) => rerender(show(id)) };
}

const read = () => screen.getByRole("button", { name: "Read where seams would be seen" }) as HTMLButtonElement;
const field = (label: string) => screen.getByLabelText(label) as HTMLInputElement;
const choose = (label: string, value: string) => fireEvent.change(screen.getByLabelText(label), { target: { value } });
function type(label: string, text: string): void {
  fireEvent.change(field(label), { target: { value: text } });
  fireEvent.keyDown(field(label), { key: "Enter" });
}

const mapIn = (job: Record<string, unknown> | undefined) => JobFile.parse(job).elevations[0]?.seamMap ?? null;

test("a picture is read into the job as one step, which undo takes back", async () => {
  const { sheet, standIn } = await loadedInWindow();
  expect(screen.getByText("2 pixels an inch. Its sides are as the elevation's.")).toBeTruthy();
  fireEvent.click(read());
  expect(await screen.findByText("Map read from stripes.png: 70 by 20 cells of 1 in.")).toBeTruthy();
  const map = mapIn(sheet.store.getState().document?.job);
  expect(map).toMatchObject({ origin: [0, 0], cell: 1, columns: 70, rows: 20, picture: "stripes.png" });
  const upright = bytesFromBase64(map?.upright ?? "");
  // The stripes lie over 28 to 42 in: across them an upright seam is seen, beside them not.
  const column = (at: number) => Array.from({ length: 20 }, (_, row) => upright[70 * row + at] as number);
  expect(Math.min(...column(35))).toBeGreaterThan(60);
  expect(Math.max(...column(10), ...column(60))).toBe(0);
  // Heat is drawn at once, with its legend; the job is planned with the map.
  const legend = screen.getByRole("list", { name: "What the heat on Long side means" });
  expect(within(legend).getByText("An upright seam here is")).toBeTruthy();
  expect(within(legend).getByText("seen most")).toBeTruthy();
  await waitFor(() => expect(mapIn(standIn.lastPlanned())).not.toBeNull());
  act(() => sheet.commands.undo());
  expect(mapIn(sheet.store.getState().document?.job)).toBeNull();
  expect(screen.queryByRole("list", { name: /What the heat on/ })).toBeNull();
});

test("a map is removed as one step too; the mirrored side takes it over until it has its own", async () => {
  const { sheet, turnTo } = await tools("A");
  await loadPicture();
  fireEvent.click(read());
  await screen.findByText(/^Map read from/);
  turnTo("B");
  expect(screen.getByText(/^The map of A, mirrored: 70 by 20 cells of 1 in\./)).toBeTruthy();
  expect(screen.queryByRole("button", { name: "Remove the map" })).toBeNull();
  turnTo("A");
  fireEvent.click(screen.getByRole("button", { name: "Remove the map" }));
  expect(mapIn(sheet.store.getState().document?.job)).toBeNull();
  act(() => sheet.commands.undo());
  expect(mapIn(sheet.store.getState().document?.job)?.picture).toBe("stripes.png");
});

test("two places lay the picture anew; what can't be is said, and then nothing is read", async () => {
  await tools("A");
  await loadPicture();
  choose("The picture lies", "places");
  // 140 pixels over 35 in: 4 an inch.
  type("B lies across at", "35");
  type("B lies up at", "10");
  expect(screen.getByText("4 pixels an inch.")).toBeTruthy();
  type("B lies up at", "30");
  expect(screen.getByRole("alert").textContent).toMatch(/would turn the picture by 24\.7°/);
  expect(read().disabled).toBe(true);
  type("A, from the picture's left", "141");
  expect(screen.getByText("A place in the picture is a number of pixels from 0 to 140.")).toBeTruthy();
  choose("The picture lies", "distance");
  // 140 across and 40 down are 145.602 pixels; over as many inches that is 1 an inch.
  type("From A to B", "145.602");
  expect(screen.getByText("1 pixel an inch.")).toBeTruthy();
  expect(read().disabled).toBe(false);
});

test("a click on the picture moves the place that is chosen", async () => {
  await tools("A");
  await loadPicture();
  choose("The picture lies", "places");
  fireEvent.click(screen.getByRole("radio", { name: "B" }));
  const preview = screen.getByRole("img", { name: /^stripes\.png with the places A and B/ });
  vi.spyOn(preview, "getBoundingClientRect").mockReturnValue(new DOMRect(10, 20, 280, 80));
  // Half a pixel of the picture to one of the screen.
  fireEvent.click(preview, { clientX: 10 + 200, clientY: 20 + 30 });
  expect(field("B, from the picture's left").value).toBe("100");
  expect(field("B, from the picture's top").value).toBe("15");
  expect(field("A, from the picture's left").value).toBe("0");
});

test("a file that is no picture says so, and what was loaded stays", async () => {
  await tools("A");
  await loadPicture();
  vi.mocked(readPicture).mockImplementation(async () => ({ why: "notes.png is no PNG or JPEG picture." }));
  fireEvent.change(screen.getByLabelText("Another picture"), { target: { files: [file] } });
  expect((await screen.findByRole("alert")).textContent).toBe("notes.png is no PNG or JPEG picture.");
  expect(screen.getByText(/^stripes\.png/)).toBeTruthy();
});

test("a picture dropped on its place is taken for artwork, not for a job", async () => {
  const { standIn } = await showSheet(boothJob());
  fireEvent.click(screen.getByRole("button", { name: "Long side" }));
  const drop = screen.getByLabelText(/^Picture of the artwork on/).parentElement as HTMLElement;
  fireEvent.drop(drop, { dataTransfer: { types: ["Files"], files: [file, file] } });
  expect(screen.getByText("One picture at a time: drop a single file.")).toBeTruthy();
  expect(readPicture).not.toHaveBeenCalled();
  fireEvent.drop(drop, { dataTransfer: { types: ["Files"], files: [file] } });
  expect(await screen.findByText(/^stripes\.png/)).toBeTruthy();
  expect(standIn.calls.some(({ name }) => name === "adoptJob")).toBe(false);
});

test("cells that would make too large a map are refused with their number", async () => {
  await tools("A");
  await loadPicture();
  type("Cells of the map", "1/64");
  expect(screen.getByText(/^That makes 4,480 by 1,280 cells/)).toBeTruthy();
  expect(read().disabled).toBe(true);
});

test("trim lines are found in the overlaps, with the caution that goes with cutting; another job clears all", async () => {
  const { sheet } = await loadedInWindow();
  const caution = await screen.findByText(
    /^Trim line seen least, in \d overlaps?\. Cut over trimming tape or a backing/,
  );
  expect(caution.textContent).toContain("Local codes and licensed practice govern");
  await waitFor(() => expect(document.querySelectorAll(".draw-trims .draw-trim").length).toBeGreaterThan(0));
  fireEvent.click(screen.getByLabelText("Show trim lines in the overlaps"));
  expect(screen.queryByText(/^Trim line seen least/)).toBeNull();
  expect(document.querySelectorAll(".draw-trims")).toHaveLength(0);
  await act(() => sheet.commands.leave({ to: "file", name: "x.job.json", text: JSON.stringify(boothJob()) }));
  fireEvent.click(screen.getByRole("button", { name: "Long side" }));
  expect(screen.getByLabelText(/^Picture of the artwork on/)).toBeTruthy();
});
