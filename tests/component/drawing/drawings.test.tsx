import { cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { userEvent } from "@testing-library/user-event";
import { useState } from "react";
import { afterEach, describe, expect, test, vi } from "vitest";
import { ElevationDrawing, Legend, RollDrawing, ScaleBar, TradeOff } from "../../../renderer/drawing/index.ts";
import type { PlanLayout } from "../../../shared/planFile.ts";
import { cast, measured, rollSeventeen, trailerLayout, trailerSide } from "./trailer.ts";

afterEach(cleanup);

const load = trailerLayout.rolls[0] as PlanLayout["rolls"][number];

function Elevation({ first = null, layout = trailerLayout }: { first?: string | null; layout?: PlanLayout | null }) {
  const [selected, setSelected] = useState<string | null>(first);
  const [hovered, setHovered] = useState<string | null>(null);
  return (
    <>
      <ElevationDrawing
        elevation={trailerSide}
        layout={layout}
        unit="in"
        selectedId={selected}
        onSelect={setSelected}
        hoveredId={hovered}
        onHover={setHovered}
        pixelsPerUnit={8}
      />
      <output>{`${selected} ${hovered}`}</output>
    </>
  );
}

const said = () => screen.getByRole("status").textContent;

describe("elevation", () => {
  test("every panel, seam and zone is a button with a full sentence", () => {
    render(<Elevation />);
    const drawing = screen.getByRole("group", {
      name: "Elevation Bakery trailer, kerb side, 100 × 40 in, 3 panels, 2 seams",
    });
    const names = within(drawing)
      .getAllByRole("button")
      .map((one) => one.getAttribute("aria-label"));
    expect(names).toContain(
      "Panel side/whole/2, 35 1/2 in across, 42 in along, laps over side/whole/3, lies under side/whole/1",
    );
    expect(names).toContain(
      "Seam side/whole:2, open, upright at 66 in, from 0 in to 40 in, overlap 1 in, side/whole/2 on top",
    );
    expect(names).toContain(
      "Keep-clear zone Loaf and Rye, lettering, no seam allowed, from 4 in to 28 in across and 20 in to 32 in up",
    );
    expect(names).toHaveLength(3 + 2 + 2);
  });

  test("without a plan the elevation alone is drawn", () => {
    render(<Elevation layout={null} />);
    expect(screen.getByRole("group", { name: /not split yet/ })).toBeTruthy();
    expect(screen.queryByRole("button", { name: /Panel/ })).toBeNull();
    expect(screen.getByRole("button", { name: /Keep-clear zone/ })).toBeTruthy();
  });

  test("a click selects, a click on the ground lets go", async () => {
    render(<Elevation />);
    await userEvent.click(screen.getByRole("button", { name: /^Seam side\/whole:1/ }));
    expect(said()).toMatch(/^seam:side\/whole:1/);
    expect(screen.getByRole("button", { name: /^Seam side\/whole:1/, pressed: true })).toBeTruthy();
    fireEvent.click(screen.getByRole("group"));
    expect(said()).toMatch(/^null/);
  });

  test("one tab stop; arrows move, Enter selects, Escape lets go", async () => {
    render(<Elevation />);
    expect(screen.getAllByRole("button").filter((one) => one.getAttribute("tabindex") === "0")).toHaveLength(1);
    await userEvent.tab();
    expect(document.activeElement?.getAttribute("data-id")).toBe("panel:side/whole/1");
    await userEvent.keyboard("{ArrowRight}{Enter}");
    // Nearest to the right of the first panel is the seam it shares with the second.
    expect(said()).toBe("seam:side/whole:1 seam:side/whole:1");
    await userEvent.keyboard("{ArrowRight}{Enter}");
    expect(document.activeElement?.getAttribute("tabindex")).toBe("0");
    expect(said()).toMatch(/^panel:side\/whole\/2/);
    await userEvent.keyboard("{End} ");
    expect(said()).toMatch(/^zone:side\/obstacle\/lamp/);
    await userEvent.keyboard("{Escape}");
    expect(said()).toMatch(/^null/);
  });

  test("a piece selected on the film lights its panel here", () => {
    render(<Elevation first="piece:side/whole/3#2" />);
    expect(screen.getByRole("button", { pressed: true }).getAttribute("data-id")).toBe("panel:side/whole/3");
  });

  test("pointing is reported and taken back", () => {
    render(<Elevation />);
    const panel = screen.getByRole("button", { name: /^Panel side\/whole\/1/ });
    fireEvent.pointerEnter(panel);
    expect(said()).toBe("null panel:side/whole/1");
    fireEvent.pointerLeave(panel);
    expect(said()).toBe("null null");
  });

  test("hit areas are at least 24 pixels", () => {
    const { container } = render(<Elevation />);
    for (const area of container.querySelectorAll(".draw-hit")) {
      expect(Number(area.getAttribute("width"))).toBeGreaterThanOrEqual(24);
      expect(Number(area.getAttribute("height"))).toBeGreaterThanOrEqual(24);
    }
    expect(container.querySelectorAll(".draw-hit-line")).toHaveLength(2);
  });

  test("no inline style is written", () => {
    const { container } = render(<Elevation first="panel:side/whole/1" />);
    expect(container.querySelectorAll("svg [style]")).toHaveLength(0);
  });
});

function Roll({ onSelect = () => {}, selected = null, shown = load }: RollCase) {
  return (
    <RollDrawing
      layout={trailerLayout}
      films={[cast]}
      stock={[rollSeventeen]}
      load={shown}
      unit="in"
      selectedId={selected}
      onSelect={onSelect}
      hoveredId={null}
      onHover={() => {}}
      pixelsPerUnit={6}
    />
  );
}
interface RollCase {
  readonly onSelect?: (id: string | null) => void;
  readonly selected?: string | null;
  readonly shown?: typeof load;
}

describe("load", () => {
  test("pieces and cuts say where they lie and what the counter reads", () => {
    render(<Roll />);
    expect(
      screen.getByRole("group", { name: "Load 1, stock R-17, White cast, 40 in wide, 150 in used, 3 cuts, 3 pieces" }),
    ).toBeTruthy();
    expect(
      screen.getByRole("button", {
        name: "Piece side/whole/2, copy 1, 35 1/2 in across, 42 in along, not turned, load 1, cut 2, counter 55 in to 97 in",
      }),
    ).toBeTruthy();
    expect(
      screen.getByRole("button", { name: "Cut 3 of load 1, 42 in long, counter 98 in to 140 in, 1 piece" }),
    ).toBeTruthy();
    expect(document.querySelector(".draw-rest text")?.textContent).toMatch(/^450\s*in left$/);
  });

  test("a panel selected on the elevation lights its piece here", () => {
    render(<Roll selected="panel:side/whole/2" />);
    expect(screen.getByRole("button", { pressed: true }).getAttribute("data-id")).toBe("piece:side/whole/2#1");
  });

  test("selecting a cut names the load and the cut's number", () => {
    const onSelect = vi.fn();
    render(<Roll onSelect={onSelect} />);
    fireEvent.click(screen.getByRole("button", { name: /^Cut 2/ }));
    expect(onSelect).toHaveBeenLastCalledWith("cut:1:2");
  });

  test("of a thousand pieces only those in view are in the page, and the keyboard still reaches the last", async () => {
    const [cut] = load.cuts as [PlanLayout["rolls"][number]["cuts"][number]];
    const cuts = Array.from({ length: 1000 }, (_, index) => ({
      ...cut,
      start: 12 + index * 43,
      pieces: cut.pieces.map((one) => ({ ...one, copy: index + 1 })),
    }));
    const { container } = render(<Roll shown={{ ...load, used: 43_030, cuts }} />);
    expect(container.querySelectorAll(".draw-piece").length).toBeLessThan(40);
    expect(container.querySelectorAll(".draw-piece").length).toBeGreaterThan(5);
    await userEvent.tab();
    await userEvent.keyboard("{End}");
    expect(document.activeElement?.getAttribute("data-id")).toBe("cut:1:1000");
    expect(container.querySelectorAll(".draw-piece").length).toBeLessThan(40);
  });
});

const layouts = [measured("few", 2, 500, 40, 10), measured("cheap", 4, 420, 30, 6), measured("dear", 4, 460, 34, 8)];

function Compared() {
  const [shown, setShown] = useState("cheap");
  return (
    <TradeOff
      layouts={layouts}
      frontier={["few", "cheap"]}
      chosen="cheap"
      selectedLayout={shown}
      onSelectLayout={setShown}
      currency="USD"
      unit="in"
    />
  );
}

describe("comparison", () => {
  test("every layout is a radio button whose sentence weighs it", () => {
    render(<Compared />);
    expect(screen.getByRole("radiogroup", { name: "3 layouts by visible seams, cost and waste" })).toBeTruthy();
    expect(
      screen.getByRole("radio", {
        name: "Layout cheap, 40 in roll, 4 visible seams, 30 % of the film wasted, of it 6 % in gaps between pieces, cost $420.00, chosen",
        checked: true,
      }),
    ).toBeTruthy();
    expect(screen.getByRole("radio", { name: /dear.*beaten by another layout$/ })).toBeTruthy();
    expect(screen.getByRole("radio", { name: /few.*beaten by no other$/ })).toBeTruthy();
  });

  test("the keyboard moves between columns and selects", async () => {
    render(<Compared />);
    await userEvent.tab();
    expect(document.activeElement?.getAttribute("data-id")).toBe("layout:cheap");
    await userEvent.keyboard("{ArrowUp}{Enter}");
    expect(screen.getByRole("radio", { checked: true }).getAttribute("data-id")).toBe("layout:dear");
    await userEvent.keyboard("{ArrowLeft} ");
    expect(screen.getByRole("radio", { checked: true }).getAttribute("data-id")).toBe("layout:few");
  });
});

test("legend and scale bar are named", () => {
  render(
    <>
      <Legend />
      <ScaleBar pixelsPerUnit={10} unit="in" />
    </>,
  );
  expect(within(screen.getByRole("list", { name: "Legend" })).getAllByRole("listitem").length).toBeGreaterThan(8);
  expect(screen.getByText("teeth: this side lies on top")).toBeTruthy();
  expect(screen.getByRole("img", { name: "Scale bar, 12 in" })).toBeTruthy();
});
