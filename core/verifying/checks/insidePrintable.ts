import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck, MOST_PER_LOAD } from "../check.ts";

const breach = breachOf("insidePrintable");

/**
 * Every piece lies inside the printable width and inside its cut (rules 4, 19 and 20). Where the laminate is narrower
 * than the printable width, all pieces of the load lie in one run of it, wherever on the roll that run is.
 */
export const insidePrintable: LayoutCheck = ({ job: { films, words }, layout }) => {
  const found: Violation[] = [];
  for (const load of layout.rolls) {
    const film = films.get(load.film);
    if (film === undefined) continue;
    const [left, right] = [film.edgeMargin, load.width - film.edgeMargin];
    let [leftmost, rightmost] = [Infinity, -Infinity];
    const ofLoad: Violation[] = [];
    for (const cut of load.cuts) {
      for (const { id, x, y, across, along } of cut.pieces) {
        const at = [load.id, id];
        [leftmost, rightmost] = [Math.min(leftmost, x), Math.max(rightmost, x + across)];
        if (x < left || x + across > right) {
          const lies = `${words.length(x)} to ${words.length(x + across)}`;
          ofLoad.push(
            breach(at, `it lies ${lies} across; printable is ${words.length(left)} to ${words.length(right)}`),
          );
        }
        if (y < 0 || y + along > cut.length) {
          const lies = `${words.length(y)} to ${words.length(y + along)}`;
          ofLoad.push(breach(at, `it lies ${lies} along its cut, which is ${words.length(cut.length)} long`));
        }
      }
    }
    if (film.laminateWidth !== null && rightmost - leftmost > film.laminateWidth) {
      const spread = words.length(rightmost - leftmost);
      ofLoad.push(
        breach([load.id], `its pieces take ${spread} across; the laminate is ${words.length(film.laminateWidth)} wide`),
      );
    }
    found.push(...ofLoad.slice(0, MOST_PER_LOAD));
  }
  return found;
};
