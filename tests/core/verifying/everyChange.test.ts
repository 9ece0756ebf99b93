import { describe, expect, test } from "vitest";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import { at, changed, leaves, misjudgedBy, type Place } from "./changes.ts";
import { boothJob, boothPlan, type Document, instanceOf, planOf } from "./support.ts";

/**
 * Every single value of the plan worked out by hand is changed, one at a time, and the verifier must object, but for the
 * few changes that the contract allows. Those are named below with their reason, and must pass.
 */

const instance = instanceOf(boothJob());
/** Why a change keeps the contract; null where it must be refused. */
function allowed(plan: Document, place: Place, value: unknown): string | null {
  const path = place.map((key) => (typeof key === "number" ? "#" : key)).join(".");
  const old = at(plan, place);
  if (value === old) return "no change";
  if (path === "seed") return "the seed tells only how the search was started";
  if (path === "layouts.#.bound.filmArea" && (value as number) <= 10_374) {
    return "no plan in sight disproves a bound on film up to the least that a layout uses";
  }
  if (path === "layouts.#.applyOrder.#.why" && String(value).trim() !== "") return "a reason is free text";
  if (path === "layouts.#.nesting" && value === "free") return "free nesting includes cuts across";
  if (path === "layouts.#.id" && old === "looser" && value !== "tight") return "nothing names this layout";
  if (path === "layouts.#.seams.#.id" && typeof value === "string" && !seamIds(plan, place).includes(value)) {
    return "nothing names a seam";
  }
  if (path === "layouts.#.rolls.#.cuts.#.pieces.#.x") return sideways(plan, place, value as number);
  if (path === "layouts.#.rolls.#.cuts.#.pieces.#.turn") return turned(plan, place, value as number);
  if (path === "layouts.#.rolls.#.cuts.#.length") return longer(plan, place, value as number);
  if (path === "layouts.#.rolls.#.cuts.#.start") return later(plan, place, value as number);
  return null;
}

const seamIds = (plan: Document, place: Place): string[] =>
  at(plan, place.slice(0, 3)).map((seam: Document) => seam.id);

/** Pieces may lie anywhere inside the printable width that keeps the cut gap of 0.5. */
function sideways(plan: Document, place: Place, x: number): string | null {
  const { width, film } = at(plan, place.slice(0, 4));
  const margin = film === "f" ? 1 : 0.5;
  const pieces: Document[] = at(plan, place.slice(0, 7));
  const own = pieces[place[7] as number];
  const inside = x >= margin && x + own.across <= width - margin;
  const apart = pieces.every(
    (other) => other === own || x + own.across + 0.5 <= other.x || other.x + other.across + 0.5 <= x,
  );
  return inside && apart ? "it lies elsewhere across the roll, inside it and apart from the rest" : null;
}

/** Film f lies two ways, g any way; the panels of A and of B are three to a section and turn together. */
function turned(plan: Document, place: Place, turn: number): string | null {
  const { id } = at(plan, place.slice(0, 8));
  return turn === 180 && !/^[AB]/.test(id) ? "the only panel of its section, or a piece that may lie half round" : null;
}

function longer(plan: Document, place: Place, length: number): string | null {
  const { used, cuts } = at(plan, place.slice(0, 4));
  const cut = cuts[place[5] as number];
  const end = cuts[(place[5] as number) + 1]?.start ?? used - 5;
  return length > cut.length && cut.start + length <= end ? "the cut may take in film up to the next one" : null;
}

function later(plan: Document, place: Place, start: number): string | null {
  const { used, cuts } = at(plan, place.slice(0, 4));
  const index = place[5] as number;
  const last = index === cuts.length - 1;
  const after = start > cuts[index].start && start + cuts[index].length <= used - 5;
  return last && after ? "more is used than the last cut needs, so it may lie further on" : null;
}

const misjudged = misjudgedBy(instance, allowed);

/** The whole plan, changed only outside its layouts, or one layout alone. */
const alone = (id: "tight" | "looser"): Document => {
  const plan = boothPlan();
  return { ...plan, layouts: plan.layouts.filter((layout: Document) => layout.id === id), frontier: [id], chosen: id };
};

describe("every change of one value", () => {
  const whole = boothPlan();
  const outside = leaves(whole).filter(({ place }) => place[0] !== "layouts");
  const claims = leaves(whole).filter(({ place }) => /^(id|totals|bound|nesting|rollWidth)$/.test(String(place[2])));
  test("of the plan's head and of its layouts' claims", () => {
    expect([...outside, ...claims].flatMap(({ place, value }) => misjudged(whole, place, value))).toEqual([]);
  });

  const tight = alone("tight");
  for (const part of ["panels", "seams", "rolls", "printOrder", "applyOrder", "wasteBy", "warnings"]) {
    test(`of ${part}`, () => {
      const inPart = leaves(tight).filter(({ place }) => place[2] === part);
      expect(inPart.flatMap(({ place, value }) => misjudged(tight, place, value))).toEqual([]);
    });
  }

  const looser = alone("looser");
  test("of the rolls of the layout that uses more than it needs", () => {
    const rolls = leaves(looser).filter(({ place }) => place[2] === "rolls");
    expect(rolls.flatMap(({ place, value }) => misjudged(looser, place, value))).toEqual([]);
  });
});

describe("every change of a list", () => {
  const tight = alone("tight");
  const lists = ["panels", "seams", "rolls", "printOrder", "applyOrder"] as const;
  for (const list of lists) {
    test(`an entry left out of ${list}, or listed twice`, () => {
      const layout = tight.layouts[0];
      layout[list].forEach((entry: Document, i: number) => {
        const without = layout[list].filter((_: Document, k: number) => k !== i);
        for (const entries of [without, [...layout[list], entry]]) {
          expect(verifyPlan(instance, planOf(changed(tight, ["layouts", 0, list], entries)))).not.toEqual([]);
        }
      });
    });
  }

  test("two neighbours of the print order change places only across loads", () => {
    const order: string[] = tight.layouts[0].printOrder;
    for (let i = 0; i + 1 < order.length; i++) {
      const [a, b] = [order[i] as string, order[i + 1] as string];
      const swapped = [...order.slice(0, i), b, a, ...order.slice(i + 2)];
      const broken = verifyPlan(instance, planOf(changed(tight, ["layouts", 0, "printOrder"], swapped)));
      expect(broken.length > 0).toBe(a.split(":")[0] === b.split(":")[0]);
    }
  });

  test("two neighbours of the apply order change places only where they do not lap", () => {
    const order: Document[] = tight.layouts[0].applyOrder;
    for (let i = 0; i + 1 < order.length; i++) {
      const swapped = [...order.slice(0, i), order[i + 1], order[i], ...order.slice(i + 2)];
      const broken = verifyPlan(instance, planOf(changed(tight, ["layouts", 0, "applyOrder"], swapped)));
      const elevationOf = (entry: Document) => entry.panel.split("/")[0];
      expect(broken.length > 0).toBe(elevationOf(order[i]) === elevationOf(order[i + 1]));
    }
  });

  test("panels and seams may be listed in any order", () => {
    const turnedRound = structuredClone(tight);
    turnedRound.layouts[0].panels.reverse();
    turnedRound.layouts[0].seams.reverse();
    turnedRound.layouts[0].rolls.reverse();
    expect(verifyPlan(instance, planOf(turnedRound))).toEqual([]);
  });
});
