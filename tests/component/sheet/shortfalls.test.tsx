import { act, screen, within } from "@testing-library/react";
import userEvent, { PointerEventsCheckLevel } from "@testing-library/user-event";
import { expect, test } from "vitest";
import type { PlanFile } from "../../../shared/planFile.ts";
import { showSheet } from "./showSheet.tsx";
import { boothJob, boothPlan } from "./standInHost.ts";

type Shortfalls = NonNullable<PlanFile["shortfalls"]>;

const choice = (
  way: Shortfalls[number]["choices"][number]["way"],
  says: string,
  cost: number,
  more: Partial<Shortfalls[number]["choices"][number]> = {},
): Shortfalls[number]["choices"][number] => ({
  way,
  says,
  film: null,
  rollWidth: 54,
  panels: 3,
  seamLength: 80,
  filmArea: 8532,
  wastePercent: 50.77,
  cost,
  ...more,
});

const told: Shortfalls = [
  {
    elevation: "A",
    section: "whole",
    rollWidth: 54,
    direction: "vertical",
    panels: 2,
    short: 6.5,
    choices: [
      choice("onePanelMore", "one more panel: 3 panels of 54 in film", 1085.321),
      choice("widerRoll", "a wider roll: 2 panels of 60 in film", 66.6, {
        rollWidth: 60,
        panels: 2,
        seamLength: 1240.5,
      }),
    ],
  },
  {
    elevation: "A",
    section: "whole",
    rollWidth: 54,
    direction: "horizontal",
    panels: 1,
    short: 0.125,
    choices: [choice("onePanelMore", "one more panel: 2 panels of 54 in film", 20)],
  },
];

async function shown(shortfalls?: Shortfalls) {
  const sheet = await showSheet(boothJob());
  const plan: PlanFile = { ...boothPlan(), ...(shortfalls === undefined ? {} : { shortfalls }) };
  act(() => sheet.standIn.finish({ status: "planned", plan, warnings: [] }));
  return { ...sheet, user: userEvent.setup({ pointerEventsCheck: PointerEventsCheckLevel.Never }) };
}

const cells = (row: HTMLElement): (string | null)[] =>
  within(row)
    .getAllByRole("cell")
    .map((cell) => cell.textContent);

test("each place is a table of its ways with figures and units, the cheapest marked in words", async () => {
  const { user } = await shown(told);
  await user.click(screen.getByText("Where film falls short"));
  expect(screen.getByText("2 places")).toBeTruthy();
  const table = screen.getByRole("table", {
    name: /Long side 2 vertical panels of 54 in film leave 6 1\/2 in bare/,
  });
  const [more, wider] = within(table).getAllByRole("row").slice(1) as [HTMLElement, HTMLElement];
  expect(within(more).getByRole("rowheader").textContent).toBe("One more panel: 3 panels of 54\u00a0in film.");
  expect(within(wider).getByRole("rowheader").textContent).toBe(
    "A wider roll: 2 panels of 60\u00a0in film.costs least",
  );
  // 8532 square inches of 144 to a square foot are 59.25.
  expect(cells(more)).toEqual(["$1,085.32", "50.8 %", "59.3 ft²", "80 in", "3"]);
  expect(cells(wider)).toEqual(["$66.60", "50.8 %", "59.3 ft²", "1,240 1/2 in", "2"]);
  expect(screen.getByRole("table", { name: /1 horizontal panel of 54 in film leaves 1\/8 in bare/ })).toBeTruthy();
});

test("its name leads to the elevation", async () => {
  const { user, sheet } = await shown(told);
  await user.click(screen.getByText("Where film falls short"));
  const table = screen.getByRole("table", { name: /leave 6 1\/2 in bare/ });
  await user.click(within(table).getByRole("button", { name: "Long side" }));
  expect(sheet.store.getState().selected).toBe("elevation:A");
});

test("ways that cost the same are both marked; a single way is too", async () => {
  const [first] = told as [Shortfalls[number]];
  const twins = [choice("onePanelMore", "one", 20.001), choice("fillSameFilm", "two", 20, { film: "cast" })];
  await shown([{ ...first, choices: twins }]);
  expect(screen.getAllByText("costs least", { selector: ".shortfall .tag" })).toHaveLength(2);
});

test("a plan without shortfalls says nothing of them", async () => {
  await shown([]);
  expect(screen.queryByText("Where film falls short")).toBeNull();
});

test("nor does an older plan", async () => {
  await shown();
  expect(screen.queryByText("Where film falls short")).toBeNull();
});
