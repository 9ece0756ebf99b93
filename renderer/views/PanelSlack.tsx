import type { PlanLayout } from "../../shared/planFile.ts";
import { roomWords } from "../state/slack.ts";
import { Facts } from "./Facts.tsx";
import { useOnSheet } from "./hooks.ts";

/** How far one panel may be shifted at the vehicle before film falls short or a seam stops lapping. */
export function PanelSlack({ panel }: { readonly panel: PlanLayout["panels"][number] }) {
  const { unit } = useOnSheet();
  const { slack } = panel;
  return (
    <>
      <h4>May be shifted by itself</h4>
      {slack === null ? (
        <p className="aside">This plan does not say how far.</p>
      ) : (
        <>
          <Facts
            facts={[
              ["To the left", roomWords(slack.left, unit)],
              ["To the right", roomWords(slack.right, unit)],
              ["Down", roomWords(slack.down, unit)],
              ["Up", roomWords(slack.up, unit)],
            ]}
          />
          <p className="aside">
            With every edge still covered and every seam still lapping as trimmed. Rounded down to the tape.
          </p>
        </>
      )}
    </>
  );
}
