import { useCallback } from "react";
import { useCommands, useSheet } from "../state/context.ts";
import { pathOf, stepsOf, valueAt } from "../state/path.ts";

/** Opens every fold round an element and gives it the focus. */
function show(element: HTMLElement): void {
  for (let fold = element.closest("details"); fold !== null; fold = fold.parentElement?.closest("details") ?? null) {
    fold.open = true;
  }
  element.scrollIntoView({ block: "center" });
  element.focus({ preventScroll: true });
}

/** The field at a path, or the nearest thing round it that has a place on the sheet. */
function nearestElement(path: string): HTMLElement | null {
  const steps = stepsOf(path);
  for (let length = steps.length; length > 0; length--) {
    const at = CSS.escape(pathOf(steps.slice(0, length)));
    const element = document.querySelector<HTMLElement>(`[data-path="${at}"]`);
    if (element !== null) return element;
  }
  return null;
}

/** Leads from a problem to its place: selects the elevation it belongs to, opens what is folded, focuses the field. */
export function useGoTo(): (path: string) => void {
  const job = useSheet((state) => state.document?.job ?? null);
  const { select } = useCommands();
  return useCallback(
    (path) => {
      const [list, place] = stepsOf(path);
      if (list === "elevations" && typeof place === "number") {
        const id = valueAt(job, `elevations[${place}].id`);
        select(typeof id === "string" && id !== "" ? `elevation:${id}` : `elevation:#${place}`);
      }
      // The selected elevation's fields are drawn with the next frame.
      requestAnimationFrame(() => {
        const element = nearestElement(path) ?? document.getElementById("details");
        if (element !== null) show(element);
      });
    },
    [job, select],
  );
}
