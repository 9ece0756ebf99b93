import { act, screen, waitFor, within } from "@testing-library/react";
import { expect, test, vi } from "vitest";
import { showSheet } from "./showSheet.tsx";
import { boothJob, boothPlan, opened, twoLayouts } from "./standInHost.ts";

const planned = (plan = twoLayouts()) => ({ status: "planned" as const, plan, warnings: [] });

test("the first job is opened and planned at once, with its progress", async () => {
  const { standIn } = await showSheet(boothJob());
  expect(standIn.calls.map(({ name }) => name)).toEqual(["hostInfo", "openFirst", "startPlan"]);
  act(() =>
    standIn.emit("planProgress", {
      runId: standIn.lastRun(),
      done: 2,
      of: 8,
      what: "30 in film",
      seconds: 0.4,
      plan: twoLayouts(),
      standing: null,
    }),
  );
  const strip = within(screen.getByRole("region", { name: "Planning" }));
  expect(strip.getByText("Planning")).toBeTruthy();
  expect(strip.getByText("30 in film, 2 of 8")).toBeTruthy();
  expect(strip.getByText("best so far $389.37")).toBeTruthy();
  expect(strip.getByRole("progressbar").getAttribute("value")).toBe("0.25");
  act(() => standIn.finish(planned()));
  expect(strip.getByText("Planned")).toBeTruthy();
  expect(strip.getByText("2 layouts")).toBeTruthy();
});

test("the course of the search is drawn and told while it runs, and again whole at its end", async () => {
  const { standIn, user } = await showSheet(boothJob());
  const standing = { seconds: 0.4, cost: 500, bound: 300, gapPercent: 40, proven: false, by: "area" };
  const progress = { runId: standIn.lastRun(), done: 2, of: 8, what: "30 in film", seconds: 0.4 };
  act(() => standIn.emit("planProgress", { ...progress, plan: null, standing }));
  const strip = within(screen.getByRole("region", { name: "Planning" }));
  expect(
    strip.getByRole("img", { name: /\$500\.00 after 0\.4 s; bound \$300\.00: at most 40\.0 % could be saved/ }),
  ).toBeTruthy();
  const better = { ...standing, seconds: 1.2, cost: 389.37, gapPercent: 22.9 };
  act(() => standIn.finish(planned(), [standing, better]));
  expect(strip.getByRole("img", { name: /\$500\.00 after 0\.4 s, \$389\.37 after 1\.2 s/ })).toBeTruthy();
  expect(screen.getByText("2 steps in 1.5 s, at most 22.9 % could be saved")).toBeTruthy();
  const table = screen.getByRole("table", { name: "Cost and bound over the time of the search" });
  expect(within(table).getAllByRole("row")).toHaveLength(3);
  expect(within(table).getByRole("row", { name: "1.2 s $389.37 $300.00 ≤ 22.9 % area" })).toBeTruthy();
  // A new run begins with an empty drawing, and nothing of the old one is taken for it.
  await user.click(screen.getByRole("button", { name: "Plan again" }));
  expect(strip.getByRole("img", { name: "No layout yet" })).toBeTruthy();
});

test("Stop ends the run and keeps the best so far", async () => {
  const { standIn, user } = await showSheet(boothJob());
  const run = standIn.lastRun();
  await user.click(screen.getByRole("button", { name: "Stop" }));
  expect(standIn.calls.at(-1)).toEqual({ name: "stopPlan", input: { runId: run } });
  act(() => standIn.finish(planned()));
  expect(screen.getByText("Stopped; the best so far is kept")).toBeTruthy();
});

test("what a run that was ended still says is not taken for the new run's", async () => {
  const { standIn, user } = await showSheet(boothJob());
  const old = standIn.lastRun();
  act(() => standIn.finish(planned()));
  await user.click(screen.getByRole("button", { name: "Plan again" }));
  expect(standIn.lastRun()).not.toBe(old);
  act(() =>
    standIn.emit("planDone", { runId: old, seconds: 9, outcome: { status: "failed", says: "late" }, standings: [] }),
  );
  expect(screen.queryByText("Planning broke off")).toBeNull();
});

test("a layout is weighed by table and shown in every band", async () => {
  const { standIn, user } = await showSheet(boothJob());
  act(() => standIn.finish(planned()));
  const table = screen.getByRole("table", { name: /Layouts compared/ });
  const rows = within(table).getAllByRole("row");
  expect(rows).toHaveLength(3);
  expect(within(table).getByText("$389.37")).toBeTruthy();
  await user.click(within(table).getByText("$439.37"));
  expect(
    screen.getByText("Beside the layout of least cost it costs $50.00 more, shows 3 fewer seams and wastes as much."),
  ).toBeTruthy();
});

test("layouts that another beats are folded away until asked for, and the gap tells what could be saved", async () => {
  const { standIn, user } = await showSheet(boothJob());
  const plan = twoLayouts();
  const first = plan.layouts[0];
  if (first === undefined) throw new Error("The hand-made plan has no layout.");
  const dearer = Array.from({ length: 40 }, (_, place) => ({
    ...structuredClone(first),
    id: `54in-vertical-${place}`,
    totals: { ...first.totals, cost: { ...first.totals.cost, total: 1000 + place } },
    bound: { ...first.bound, cost: 500, gapPercent: 50, proven: false },
  }));
  act(() => standIn.finish(planned({ ...plan, layouts: [...plan.layouts, ...dearer] })));
  const table = screen.getByRole("table", { name: /Layouts compared/ });
  expect(within(table).getAllByRole("row")).toHaveLength(3);
  expect(screen.getAllByRole("radio")).toHaveLength(2);
  await user.click(screen.getByRole("button", { name: "Also show 40 layouts that others beat" }));
  expect(within(table).getAllByRole("row")).toHaveLength(43);
  await user.click(within(table).getByText("$1,000.00"));
  // A gap of 50 % is half of this layout's own cost: "50 % above the least" would say too little.
  expect(screen.getByText(/costs less than \$500\.00, so at most 50\.0 % could be saved/)).toBeTruthy();
  await user.click(screen.getByRole("button", { name: "Leave out what is beaten" }));
  expect(within(table).getAllByRole("row")).toHaveLength(4);
});

test("the table is sorted by any column, both ways", async () => {
  const { standIn, user } = await showSheet(boothJob());
  act(() => standIn.finish(planned()));
  const costs = () => screen.getAllByText(/^\$(389|439)\.37$/, { selector: "td" }).map((cell) => cell.textContent);
  expect(costs()).toEqual(["$389.37", "$439.37"]);
  await user.click(screen.getByRole("button", { name: "Seams seen" }));
  expect(costs()).toEqual(["$439.37", "$389.37"]);
  await user.click(screen.getByRole("button", { name: /Seams seen/ }));
  expect(costs()).toEqual(["$389.37", "$439.37"]);
});

test("a panel picked on the elevation is found on the film and in the cut list", async () => {
  const { standIn, user } = await showSheet(boothJob());
  act(() => standIn.finish(planned(boothPlan())));
  await user.click(screen.getByRole("button", { name: /^Panel A\/1,/ }));
  const side = within(screen.getByRole("region", { name: "Selected" }));
  expect(side.getByText("Panel")).toBeTruthy();
  expect(side.getByText("Where its copies lie")).toBeTruthy();
  const piece = screen.getByRole("button", { name: "A/1, copy 2" });
  expect(piece.closest("tr")?.className).toContain("row-shown");
  await user.click(side.getByRole("button", { name: "Show copy 1 of A/1 on the film" }));
  expect(side.getByText("Piece on the film")).toBeTruthy();
});

test("an edited rule is one undoable step, typed in any unit, and plans the job again", async () => {
  const { standIn, user, sheet } = await showSheet(boothJob());
  act(() => standIn.finish(planned()));
  const bleed = screen.getByLabelText("Bleed");
  await user.clear(bleed);
  await user.type(bleed, "1 1/2{Enter}");
  expect(document.title.startsWith("• ")).toBe(true);
  expect(sheet.store.getState().document?.job).toMatchObject({ rules: { bleed: 1.5 } });
  expect(screen.getByText(/the plan before the last edit/)).toBeTruthy();
  await waitFor(() => expect(standIn.lastPlanned()).toMatchObject({ rules: { bleed: 1.5 } }));
  await user.clear(bleed);
  await user.type(bleed, "50.8 mm{Enter}");
  expect(sheet.store.getState().document?.job).toMatchObject({ rules: { bleed: 2 } });
  await user.click(screen.getByRole("button", { name: "Undo" }));
  await user.click(screen.getByRole("button", { name: "Undo" }));
  expect((screen.getByLabelText("Bleed") as HTMLInputElement).value).toBe("1");
  expect(document.title.startsWith("• ")).toBe(false);
  await user.click(screen.getByRole("button", { name: "Redo" }));
  expect((screen.getByLabelText("Bleed") as HTMLInputElement).value).toBe("1 1/2");
});

test("text that is no length stays in its field with the reason, and changes nothing", async () => {
  const { user, sheet } = await showSheet(boothJob());
  const before = sheet.store.getState().document?.job;
  const bleed = screen.getByLabelText("Bleed");
  await user.clear(bleed);
  await user.type(bleed, "three fingers{Enter}");
  expect(bleed.getAttribute("aria-invalid")).toBe("true");
  expect((bleed as HTMLInputElement).value).toBe("three fingers");
  expect(sheet.store.getState().document?.job).toBe(before);
  await user.type(bleed, "{Escape}");
  expect((bleed as HTMLInputElement).value).toBe("1");
  expect(bleed.getAttribute("aria-invalid")).toBe("false");
});

test("a problem leads to its field", async () => {
  const job = boothJob();
  (job.rules as Record<string, unknown>).overlap = -1;
  const problem = { path: "rules.overlap", value: -1, why: "An overlap is not negative.", mend: "Give 0 or more." };
  const { user } = await showSheet(opened(job, { problems: [problem] }));
  expect(screen.getByText("One thing keeps this job from being read")).toBeTruthy();
  await user.click(screen.getByRole("button", { name: /An overlap is not negative/ }));
  await waitFor(() => expect(document.activeElement).toBe(screen.getByLabelText("Overlap")));
  expect(screen.getByLabelText("Overlap").getAttribute("aria-invalid")).toBe("true");
});

test("a reason why no plan exists leads to its elevation", async () => {
  const { standIn, user } = await showSheet(boothJob());
  const why = "Lettering ‘word’ is wider than any panel.";
  const reasons = [{ path: "elevations[0].keepClear[0].box", value: null, why, mend: "Allow seams there." }];
  act(() => standIn.finish({ status: "noPlan", reasons }));
  expect(screen.getByText("No plan exists for this job as it stands")).toBeTruthy();
  await user.click(screen.getByRole("button", { name: new RegExp(why) }));
  await waitFor(() => expect(document.activeElement?.getAttribute("data-path")).toBe("elevations[0].keepClear[0]"));
});

test("a plan that the program broke its word on is said plainly and the job is kept", async () => {
  const { standIn, sheet } = await showSheet(boothJob());
  act(() => standIn.finish({ status: "failed", says: "layout 54 breaks the contract" }));
  expect(screen.getByText("layout 54 breaks the contract")).toBeTruthy();
  expect(sheet.store.getState().document?.job).toEqual(boothJob());
});

test("saving under a name that is taken asks before it replaces", async () => {
  const { standIn, user } = await showSheet(boothJob());
  await user.click(screen.getByRole("button", { name: "Save as" }));
  const dialog = within(await screen.findByRole("dialog", { name: "Save as" }));
  await user.click(dialog.getByRole("button", { name: "Save" }));
  await user.click(await screen.findByRole("button", { name: "Replace booth.job.json" }));
  expect(standIn.calls.at(-1)?.input).toMatchObject({ name: "booth.job.json", replace: true });
  expect(await screen.findByText("Saved as booth.job.json")).toBeTruthy();
  expect(screen.queryByRole("dialog")).toBeNull();
});

test("leaving unsaved work asks first, and staying loses nothing", async () => {
  const { user, sheet } = await showSheet(boothJob());
  act(() => sheet.commands.edit("Name", (draft) => Object.assign(draft, { name: "Renamed booth" })));
  await user.click(screen.getByRole("button", { name: "Open" }));
  await user.click(await screen.findByRole("button", { name: "trailer.job.json" }));
  await screen.findByRole("dialog", { name: "Unsaved work" });
  await user.click(screen.getByRole("button", { name: "Stay here" }));
  expect(screen.getByRole("heading", { level: 1 }).textContent).toBe("Renamed booth");
  await user.click(screen.getByRole("button", { name: "Open" }));
  await user.click(await screen.findByRole("button", { name: "trailer.job.json" }));
  await user.click(await screen.findByRole("button", { name: "Leave without saving" }));
  expect((await screen.findAllByText("trailer.job.json")).length).toBeGreaterThan(0);
  expect(sheet.store.getState().document?.name).toBe("trailer.job.json");
});

test("unsaved work is kept in the browser and offered to the next window", async () => {
  const first = await showSheet(boothJob());
  act(() => first.sheet.commands.edit("Name", (draft) => Object.assign(draft, { name: "Half done booth" })));
  act(() => first.sheet.commands.keepDraftNow());
  const { cleanup } = await import("@testing-library/react");
  cleanup();
  const second = await showSheet(boothJob());
  expect(screen.getByText("Unsaved work on booth.job.json")).toBeTruthy();
  await second.user.click(screen.getByRole("button", { name: "Go on with it" }));
  expect(screen.getByRole("heading", { level: 1 }).textContent).toBe("Half done booth");
  expect(screen.queryByText("Unsaved work on booth.job.json")).toBeNull();
  expect(document.title.startsWith("• ")).toBe(true);
});

test("a lost connection is said, the work stays, and its return plans what was cut short", async () => {
  const { standIn, sheet } = await showSheet(boothJob());
  act(() => sheet.commands.connectionChanged(true));
  act(() => sheet.commands.connectionChanged(false));
  expect(screen.getByRole("alert").textContent).toContain("The connection to the program is gone.");
  const before = standIn.calls.filter(({ name }) => name === "startPlan").length;
  await act(async () => sheet.commands.connectionChanged(true));
  expect(screen.queryByRole("alert")).toBeNull();
  expect(standIn.calls.filter(({ name }) => name === "startPlan")).toHaveLength(before + 1);
});

test("exports are asked for by kind and handed to the browser", async () => {
  const keepFile = vi.fn();
  const { standIn, user } = await showSheet(boothJob(), {}, { keepFile });
  act(() => standIn.finish(planned()));
  await user.click(screen.getByRole("button", { name: "Export" }));
  const dialog = within(await screen.findByRole("dialog", { name: "Export" }));
  await user.click(dialog.getByRole("checkbox", { name: /^Plan/ }));
  await user.click(dialog.getByRole("button", { name: "Export" }));
  await waitFor(() => expect(keepFile).toHaveBeenCalledWith({ name: "booth.cuts.csv", mime: "text/csv", text: "a,b" }));
  expect(standIn.calls.at(-1)?.input).toMatchObject({
    layout: twoLayouts().chosen,
    kinds: ["cutList", "datumSheet", "rollMap"],
  });
});

test("a stock roll is added, typed over and removed, each as one step", async () => {
  const job = boothJob();
  job.stock = [];
  const { user, sheet } = await showSheet(job);
  const stock = () => sheet.store.getState().document?.job.stock as { id: string; length: number }[];
  await user.click(screen.getByRole("button", { name: "Add a roll or offcut" }));
  expect(stock()).toHaveLength(1);
  const left = screen.getByLabelText("Length left");
  await user.clear(left);
  await user.type(left, "10'{Enter}");
  expect(stock()[0]?.length).toBe(120);
  await user.click(screen.getByRole("button", { name: "Remove roll" }));
  expect(stock()).toEqual([]);
  expect(sheet.store.getState().history.done.map(({ label }) => label)).toEqual([
    "Add a stock roll",
    "Length of a stock roll",
    "Remove stock roll",
  ]);
});

test("an empty job says what to do first and takes a first elevation", async () => {
  const empty = { ...boothJob(), elevations: [], pieces: [] };
  const { user, sheet } = await showSheet(empty);
  expect(screen.getByText("Nothing to cover yet.")).toBeTruthy();
  const form = within(screen.getByRole("region", { name: "What is covered" }));
  await user.type(form.getByLabelText("Name"), "Clinic wall");
  await user.type(form.getByLabelText("Width"), "14'6\"");
  await user.type(form.getByLabelText("Height"), "96");
  await user.click(form.getByRole("button", { name: "Add elevation" }));
  expect(sheet.store.getState().document?.job.elevations).toMatchObject([
    {
      name: "Clinic wall",
      outline: [
        [0, 0],
        [174, 0],
        [174, 96],
        [0, 96],
      ],
    },
  ]);
});

test("keys do what their list says, and leave typing alone", async () => {
  const { standIn, user, sheet } = await showSheet(boothJob());
  act(() => standIn.finish(planned()));
  await user.keyboard("]");
  expect(sheet.store.getState().layoutId).toBe("fewer");
  await user.keyboard("?");
  const dialog = within(await screen.findByRole("dialog", { name: "Keys" }));
  await user.click(dialog.getByRole("checkbox"));
  await user.click(dialog.getByRole("button", { name: "Close" }));
  await user.keyboard("[[");
  expect(sheet.store.getState().layoutId).toBe("fewer");
  await user.click(screen.getByLabelText("Currency"));
  await user.keyboard("123");
  expect((screen.getByLabelText("Currency") as HTMLInputElement).value).toBe("USD123");
});

test("forty elevations and a name of eighty characters", async () => {
  const job = boothJob();
  const one = (job.elevations as Record<string, unknown>[])[2] ?? {};
  const long = "Side of the twelfth mobile library of the county, seen from the pavement, with it";
  job.elevations = Array.from({ length: 40 }, (_, place) => ({
    ...one,
    id: `side ${place}`,
    name: place === 0 ? long : `Side ${place}`,
  }));
  await showSheet(job);
  expect(screen.getByRole("button", { name: long })).toBeTruthy();
  expect(screen.getAllByRole("figure").length).toBeGreaterThanOrEqual(40);
});
