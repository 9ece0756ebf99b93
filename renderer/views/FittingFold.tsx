import { Button } from "../controls/Button.tsx";
import { Fold } from "../controls/Fold.tsx";
import { useCommands } from "../state/context.ts";
import { panelName } from "../state/links.ts";
import { stepsOn } from "../state/steps.ts";
import { asSentence, counted } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

/** The order in which panels, fills and loose pieces go on, each with its reason. */
export function FittingFold({ elevation }: { readonly elevation: string }) {
  const { layout } = useOnSheet();
  const { select } = useCommands();
  if (layout === null) return null;
  const steps = stepsOn(layout, elevation);
  return (
    <Fold title="Order of fitting" aside={steps.length === 0 ? "none" : counted(steps.length, "step")}>
      {steps.length === 0 ? <p className="aside">This plan names no order for it.</p> : null}
      <ol className="steps">
        {steps.map(({ item, role, why }) => (
          <li key={item}>
            <Button weight="bare" onClick={() => select(panelName(item))}>
              {item}
            </Button>
            {role === "panel" ? null : <span className="aside"> {role}</span>}
            <p>{asSentence(why)}</p>
          </li>
        ))}
      </ol>
    </Fold>
  );
}
