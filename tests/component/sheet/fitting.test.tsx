import { act, screen, waitFor, within } from "@testing-library/react";
import userEvent, { PointerEventsCheckLevel } from "@testing-library/user-event";
import { expect, test } from "vitest";
import { listIn } from "../../../renderer/state/entries.ts";
import type { JobJson } from "../../../shared/host.ts";
import type { PlanFile } from "../../../shared/planFile.ts";
import { showSheet } from "./showSheet.tsx";
import { boothJob, boothPlan } from "./standInHost.ts";

/** The hand-made plan with all that a plan may tell beside its panels and seams. */
function toldPlan(): PlanFile {
  const plan = boothPlan();
  const [layout] = plan.layouts;
  if (layout === undefined) throw new Error("The hand-made plan has no layout.");
  const panel = layout.panels.find(({ id }) => id === "A/2");
  const seam = layout.seams.find((one) => one.elevation === "A" && one.kind === "break");
  if (panel === undefined || seam === undefined) throw new Error("The hand-made plan lacks it.");
  panel.slack = { left: 0.375, right: 0.05, down: 1, up: 0 };
  seam.why = "in door gap 'gap', held by 'hold 1'";
  layout.dimensions = [
    { elevation: "A", name: "left end to door gap 'gap'", axis: "x", from: 0, to: 25, slack: 2 },
    { elevation: "A", name: "height", axis: "y", from: 0, to: 20, slack: 0.375 },
  ];
  layout.fitting = [
    { elevation: "A", item: "A/2", role: "panel", why: "holds lettering 'word'" },
    { elevation: "A", item: "flag", role: "overlay", why: "over all panels" },
  ];
  layout.sections = [
    { elevation: "D", id: "found 1", box: [0, 0, 40, 12], direction: "horizontal", why: "1 seam on the body line" },
    { elevation: "D", id: "found 2", box: [0, 12, 40, 30], direction: "vertical", why: "no seam at all" },
  ];
  layout.differences = [
    { elevation: "B", follows: "A", section: "whole", axis: "x", at: 44, says: "a handle at 43 in keeps it off" },
  ];
  return plan;
}

const planned = (plan = toldPlan()) => ({ status: "planned" as const, plan, warnings: [] });
/** A thing of a drawing by its name; far quicker than by role in a page as large as this. */
function mark(name: string): Element {
  const found = document.querySelector(`[data-id="${name}"]`);
  if (found === null) throw new Error(`Nothing is drawn as ${name}.`);
  return found;
}

/** The name over an elevation's drawing, which opens its values. */
function nameOver(elevation: string): Element {
  const found = document.querySelector(`[data-elevation="${elevation}"] .elevation-name`);
  if (found === null) throw new Error(`There is no elevation ${elevation}.`);
  return found;
}

/** What is told of the thing selected. */
function side() {
  const found = document.querySelector<HTMLElement>("section.selected");
  if (found === null) throw new Error("Nothing is told at the side.");
  return within(found);
}

async function shown(job: JobJson = boothJob(), plan?: PlanFile) {
  const sheet = await showSheet(job);
  // Whether the pointer can reach a thing is for the tests in a browser; asked here it takes most of the time.
  const user = userEvent.setup({ pointerEventsCheck: PointerEventsCheckLevel.Never });
  act(() => sheet.standIn.finish(planned(plan)));
  const holds = (place: number) => listIn(sheet.sheet.store.getState().document?.job.elevations)[place]?.holds;
  return { ...sheet, user, holds };
}

test("a seam is held where it lies, marked on both sides that share it, and released again", async () => {
  const { user, standIn, holds, sheet } = await shown();
  // B repeats A, 70 in long: its seam at 45 in is A's at 25 in.
  await user.click(mark("seam:B/b2"));
  await user.click(side().getByRole("button", { name: "Hold this seam here" }));
  expect(holds(0)).toEqual([{ id: "hold 1", kind: "seam", axis: "x", at: 25, section: "whole" }]);
  expect(holds(1)).toBeUndefined();
  expect(side().getByText("Held at 45 in.")).toBeTruthy();
  expect(side().getByText(/Long side and Other long side share their panels/)).toBeTruthy();
  await waitFor(() =>
    expect(standIn.lastPlanned()).toMatchObject({ elevations: [{ holds: [{ at: 25 }] }, {}, {}, {}] }),
  );
  act(() => standIn.finish(planned()));
  expect(mark("seam:A/a1").getAttribute("aria-label")).toMatch(/upright at 25 in.*, held here$/);
  expect(mark("seam:B/b2").getAttribute("aria-label")).toMatch(/upright at 45 in.*, held here$/);
  expect(mark("seam:A/a2").getAttribute("aria-label")).not.toContain("held");
  expect(side().getByText("Held at 45 in.")).toBeTruthy();
  await user.click(side().getByRole("button", { name: "Release this seam" }));
  expect(holds(0)).toBeUndefined();
  act(() => sheet.commands.undo());
  expect(holds(0)).toHaveLength(1);
});

test("a selected seam stays selected by its place when the next plan counts seams otherwise", async () => {
  const { user, standIn, sheet } = await shown();
  await user.click(mark("seam:A/a2"));
  act(() => sheet.commands.edit("Name", (draft) => Object.assign(draft, { name: "Other booth" })));
  await waitFor(() => expect(standIn.lastPlanned()).toMatchObject({ name: "Other booth" }));
  const plan = toldPlan();
  const seams = plan.layouts[0]?.seams ?? [];
  const [first, second] = ["a1", "a2"].map((id) => seams.find((one) => one.id === id));
  if (first === undefined || second === undefined) throw new Error("The hand-made plan lacks it.");
  Object.assign(first, { id: "a2" });
  Object.assign(second, { id: "a3" });
  act(() => standIn.finish(planned(plan)));
  expect(sheet.store.getState().selected).toBe("seam:A/a3");
});

test("seams are kept away from a stretch that is typed, and a stretch that makes no sense is refused", async () => {
  const { user, holds } = await shown();
  await user.click(mark("seam:A/a1"));
  const form = within(side().getByRole("form", { name: "Keep seams away from here" }));
  const from = form.getByLabelText("No upright seam from");
  expect((from as HTMLInputElement).value).toBe("22");
  await user.clear(from);
  await user.type(from, "30");
  await user.click(form.getByRole("button", { name: "No seam near here" }));
  expect(form.getByRole("alert").textContent).toBe("It ends before it begins.");
  expect(holds(0)).toBeUndefined();
  await user.clear(from);
  await user.type(from, "508 mm{Enter}");
  expect(holds(0)).toEqual([{ id: "hold 1", kind: "noSeam", axis: "x", from: 20, to: 28, section: "whole" }]);
});

test("a panel's width is held, and released where it is held", async () => {
  const { user, holds } = await shown();
  await user.click(mark("panel:A/2"));
  const form = within(side().getByRole("form", { name: "Hold the width of this panel" }));
  const width = form.getByLabelText("Width to hold");
  expect((width as HTMLInputElement).value).toBe("21 1/2");
  await user.clear(width);
  await user.type(width, "24");
  await user.click(form.getByRole("button", { name: "Hold this width" }));
  // The panel's artwork runs from 23 to 44 1/2 in: its middle is at 33 3/4 in.
  expect(holds(0)).toEqual([{ id: "hold 1", kind: "width", axis: "x", at: 33.75, width: 24, section: "whole" }]);
  expect(side().getByText("Held at 24 in across.")).toBeTruthy();
  await user.click(side().getByRole("button", { name: "Release this width" }));
  expect(holds(0)).toBeUndefined();
});

test("an elevation lists its holds, with lengths to type, and takes a direction for one section", async () => {
  const { user, holds } = await shown();
  await user.click(nameOver("C"));
  await user.selectOptions(side().getByLabelText("In"), "upper");
  await user.click(side().getByRole("button", { name: "Hold horizontal" }));
  expect(holds(2)).toEqual([{ id: "hold 1", kind: "direction", direction: "horizontal", section: "upper" }]);
  expect(side().getByText("Panels run horizontal, section upper")).toBeTruthy();
  await user.click(side().getByRole("button", { name: "Release: Panels run horizontal, section upper" }));
  expect(side().getByText(/Nothing is held/)).toBeTruthy();
});

test("holds that contradict lead to their rows", async () => {
  const job = boothJob();
  Object.assign((job.elevations as object[])[0] as object, {
    holds: [
      { id: "a", kind: "seam", axis: "x", at: 25 },
      { id: "b", kind: "noSeam", axis: "x", from: 20, to: 30 },
    ],
  });
  const { user, standIn } = await showSheet(job);
  const why = "Holds 'a' and 'b' leave no plan.";
  const reasons = [{ path: "elevations[0].holds[1]", value: null, why, mend: "Release one of them." }];
  act(() => standIn.finish({ status: "noPlan", reasons }));
  await user.click(screen.getByRole("button", { name: new RegExp(why) }));
  await waitFor(() => expect(document.activeElement?.getAttribute("data-path")).toBe("elevations[0].holds[1]"));
  expect(document.activeElement?.textContent).toContain("No upright seam from 20 in to 30 in");
  const to = within(document.activeElement as HTMLElement).getByLabelText("No seam up to");
  await user.clear(to);
  await user.type(to, "24{Enter}");
  await waitFor(() =>
    expect(standIn.lastPlanned()).toMatchObject({ elevations: [{ holds: [{}, { to: 24 }] }, {}, {}, {}] }),
  );
});

test("a panel says how far it may be shifted, and one of a plan that does not know says so", async () => {
  const { user } = await shown();
  await user.click(mark("panel:A/2"));
  const facts = side().getByText("To the left").closest("dl");
  expect(facts?.textContent).toBe("To the left3/8 inTo the rightunder 1/16 inDown1 inUpnone");
  await user.click(mark("panel:A/1"));
  expect(side().getByText("This plan does not say how far.")).toBeTruthy();
});

test("an elevation says how much longer its measures may turn out, the tightest first", async () => {
  const { user } = await shown();
  await user.click(nameOver("A"));
  const fold = side().getByText("Measures to check").closest("details") as HTMLElement;
  expect(within(fold).getByText("2, safe to +3/8 in")).toBeTruthy();
  expect(
    within(fold)
      .getAllByRole("listitem")
      .map(({ textContent }) => textContent),
  ).toEqual(["height20 insafe to +3/8 in", "left end to door gap 'gap'25 insafe to +2 in"]);
  const bare = boothPlan();
  const { cleanup } = await import("@testing-library/react");
  cleanup();
  const again = await shown(boothJob(), bare);
  await again.user.click(nameOver("A"));
  expect(side().getByText("This plan does not say how much room its measures leave.")).toBeTruthy();
});

test("the order of fitting names loose pieces too, and falls back to the order of panels", async () => {
  const { user } = await shown();
  await user.click(nameOver("A"));
  const fold = () => side().getByText("Order of fitting").closest("details") as HTMLElement;
  expect(
    within(fold())
      .getAllByRole("listitem")
      .map(({ textContent }) => textContent),
  ).toEqual(["A/2Holds lettering 'word'.", "flag overlayOver all panels."]);
  await user.click(nameOver("D"));
  expect(within(fold()).getAllByRole("listitem").length).toBeGreaterThan(0);
});

test("found sections are drawn and say why; the reason of a seam is the plan's own", async () => {
  const { user } = await shown();
  expect(side().getByText("Sections found")).toBeTruthy();
  expect(side().getByText("1 seam on the body line.")).toBeTruthy();
  expect(side().getByText("Other long side: a handle at 43 in keeps it off.")).toBeTruthy();
  const drawn = [...document.querySelectorAll(".draw-found title")].map(({ textContent }) => textContent);
  expect(drawn).toEqual([
    "Section found 1, found, panels run horizontal: 1 seam on the body line",
    "Section found 2, found, panels run vertical: no seam at all",
  ]);
  await user.click(mark("seam:A/a1"));
  expect(side().getByText("In door gap 'gap', held by 'hold 1'.")).toBeTruthy();
});

test("what is settled for a section that was found makes the sections found the job's own, in one step", async () => {
  const plan = toldPlan();
  const layout = plan.layouts[0];
  const seam = layout?.seams.find(({ id }) => id === "a1");
  if (layout === undefined || seam === undefined) throw new Error("The hand-made plan lacks it.");
  layout.sections = [
    { elevation: "A", id: "part-1", box: [0, 0, 70, 12], direction: "vertical", why: "1 seam in a gap" },
    { elevation: "A", id: "part-2", box: [0, 12, 70, 20], direction: "horizontal", why: "no seam at all" },
  ];
  seam.section = "part-1";
  const { user, holds, sheet } = await shown(boothJob(), plan);
  const first = () => listIn(sheet.store.getState().document?.job.elevations)[0];
  const own = first()?.sections;
  const parted = [
    { id: "part-1", box: [0, 0, 70, 12], direction: "vertical" },
    { id: "part-2", box: [0, 12, 70, 20], direction: "horizontal" },
  ];
  await user.click(mark("seam:A/a1"));
  await user.click(side().getByRole("button", { name: "Hold this seam here" }));
  expect(holds(0)).toEqual([{ id: "hold 1", kind: "seam", axis: "x", at: 25, section: "part-1" }]);
  expect(first()?.sections).toEqual(parted);
  act(() => sheet.commands.undo());
  expect(first()?.sections).toEqual(own);
  expect(holds(0)).toBeUndefined();
  await user.click(nameOver("A"));
  await user.click(side().getByRole("button", { name: "Keep these sections" }));
  expect(first()?.sections).toEqual(parted);
});

test("a side is let follow the other, and then says where it departs from it", async () => {
  const { user, sheet } = await shown();
  await user.click(nameOver("B"));
  expect(side().queryByText(/Where it departs/)).toBeNull();
  await user.selectOptions(side().getByLabelText("Its panels"), "follow the other");
  expect(sheet.store.getState().document?.job).toMatchObject({ elevations: [{}, { mirror: "follow" }, {}, {}] });
  expect(side().getByText("Where it departs from Long side")).toBeTruthy();
  expect(side().getByText("A handle at 43 in keeps it off.")).toBeTruthy();
});

test("sections are looked for at one switch, and not looking leaves the job as it was", async () => {
  const { user, sheet } = await shown();
  await user.click(nameOver("D"));
  const look = side().getByRole("checkbox", { name: "Also look for sections along breaks" });
  await user.click(look);
  expect(sheet.store.getState().document?.job).toMatchObject({ elevations: [{}, {}, {}, { findSections: true }] });
  await user.click(look);
  expect(sheet.store.getState().document?.job).toEqual(boothJob());
});

test("rules: heights weigh, kinds of obstacle keep clear, and an obstacle shows the rule's clearance", async () => {
  const { user, sheet } = await shown();
  const rules = () => sheet.store.getState().document?.job.rules as Record<string, unknown>;
  await user.click(screen.getByRole("button", { name: "Add a height zone" }));
  expect(rules().heightZones).toEqual([{ from: 48, to: 72, weight: 2 }]);
  const counts = screen.getByLabelText("Counts, height zone 1");
  await user.clear(counts);
  await user.type(counts, "2.5{Enter}");
  expect(rules().heightZones).toEqual([{ from: 48, to: 72, weight: 2.5 }]);
  await user.click(screen.getByRole("button", { name: "Remove height zone 1" }));
  expect(rules().heightZones).toBeUndefined();
  await user.type(screen.getByLabelText("Kind of obstacle to keep clear of"), "handle{Enter}");
  const round = screen.getByLabelText("Round a handle");
  await user.clear(round);
  await user.type(round, "2{Enter}");
  expect(rules().clearances).toEqual({ handle: 2 });
  await user.click(mark("zone:A/obstacle/knob"));
  expect((side().getByLabelText("Clearance") as HTMLInputElement).value).toBe("2 in by rule");
});

test("two elevations are asked to come from one lot, and the last two of a group stay in it", async () => {
  const { user, sheet } = await shown();
  const lots = () => sheet.store.getState().document?.job.sameLot;
  await user.click(screen.getByRole("button", { name: "Ask for one lot" }));
  const group = within(screen.getByRole("group", { name: "Together 1" }));
  expect(lots()).toEqual([{ id: "lot", elevations: ["A", "B"] }]);
  expect((group.getByRole("checkbox", { name: "Long side" }) as HTMLInputElement).disabled).toBe(true);
  await user.click(group.getByRole("checkbox", { name: "Back" }));
  await user.click(group.getByRole("checkbox", { name: "Other long side" }));
  expect(lots()).toEqual([{ id: "lot", elevations: ["A", "D"] }]);
  await user.click(group.getByRole("button", { name: "Remove together 1" }));
  expect(lots()).toBeUndefined();
});
