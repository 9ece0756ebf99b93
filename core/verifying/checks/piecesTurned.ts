import type { Panel } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { boxOf } from "../geometry/polygons.ts";
import type { ElevationView } from "../layoutView.ts";

const breach = breachOf("piecesTurned");

/**
 * Every piece lies on its own film with its own size and a turn that the film's lay and the piece allow; the panels of
 * one section have one turn per copy (rules 17 and 18), or, where heads alternate, every second one stands on its head
 * against the others.
 */
export const piecesTurned: LayoutCheck = ({ job: { films, pieces, words }, placed, elevations }) => {
  const found: Violation[] = [];
  const turns = new Map<string, number>();
  const onHead = headsTurned(elevations);
  const sizes = new Map([...pieces].map(([id, { outline }]) => [id, boxOf(outline)]));
  for (const { load, piece, panel, loose } of placed) {
    const item = panel ?? loose;
    const film = films.get(load.film);
    if (item === null || film === undefined) continue;
    const at = [load.id, piece.id];
    if (item.film !== load.film) found.push(breach(at, `it is of film ${item.film} and lies on ${load.film}`));

    const size = sizes.get(piece.id);
    const [across, along] =
      panel !== null
        ? [panel.across, panel.along]
        : size !== undefined
          ? [size.x1 - size.x0, size.y1 - size.y0]
          : [0, 0];
    const [dueAcross, dueAlong] = piece.turn % 180 === 0 ? [across, along] : [along, across];
    if (piece.across !== dueAcross || piece.along !== dueAlong) {
      const stated = `${words.length(piece.across)} by ${words.length(piece.along)}`;
      found.push(
        breach(
          at,
          `it lies there as ${stated}; turned so it is ${words.length(dueAcross)} by ${words.length(dueAlong)}`,
        ),
      );
    }

    const byFilm =
      { "one-way": [0], "two-way": [0, 180], any: panel === null ? [0, 90, 180, 270] : [0, 180] }[film.lay] ?? [];
    const byPiece =
      loose === null || panel !== null
        ? null
        : ({ fixed: [0], half: [0, 180], quarter: [0, 90, 180, 270] }[loose.turn] ?? []);
    if (!byFilm.includes(piece.turn))
      found.push(breach(at, `it is turned by ${piece.turn}; ${film.lay} film allows ${byFilm.join(", ")}`));
    if (byPiece !== null && !byPiece.includes(piece.turn)) {
      found.push(breach(at, `it is turned by ${piece.turn}; the piece allows ${byPiece.join(", ")}`));
    }

    if (panel !== null) {
      const group = JSON.stringify([panel.elevation, panel.section, piece.copy]);
      const before = turns.get(group);
      const turned = onHead.has(panel);
      const upright = (piece.turn + (turned ? 180 : 0)) % 360;
      if (before !== undefined && before !== upright) {
        const due = (before + (turned ? 180 : 0)) % 360;
        found.push(
          breach(
            at,
            `by the other panels of ${panel.section}, copy ${piece.copy}, it is to be turned by ${due}, not ${piece.turn}`,
          ),
        );
      }
      turns.set(group, before ?? upright);
    }
  }
  return found;
};

/** The even panels of every section whose heads alternate, counted from the left or from the bottom. */
function headsTurned(elevations: readonly ElevationView[]): ReadonlySet<Panel> {
  const sections = elevations.flatMap((view) => view.sections).filter(({ heads }) => heads === "alternate");
  return new Set(sections.flatMap(({ panels }) => panels.filter((_, i) => i % 2 === 1)));
}
