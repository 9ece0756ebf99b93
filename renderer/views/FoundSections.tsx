import { Button } from "../controls/Button.tsx";
import { useCommands } from "../state/context.ts";
import { keepFound } from "../state/keepFound.ts";
import { asSentence, directionWords } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

/** The sections that the layout shown found on an elevation, each with the reason why; nothing where it keeps those given. */
export function FoundSections({ elevation }: { readonly elevation: string }) {
  const { layout } = useOnSheet();
  const { edit } = useCommands();
  const found = layout?.sections?.filter((section) => section.elevation === elevation) ?? [];
  if (found.length === 0) return null;
  return (
    <div className="found">
      <p>The layout shown parts it anew, along lines it found:</p>
      <ul className="rows">
        {found.map(({ id, direction, why }) => (
          <li key={id} className="row-prose">
            <strong>{id}</strong> <span className="aside">panels run {directionWords[direction]}</span>
            <p>{asSentence(why)}</p>
          </li>
        ))}
      </ul>
      <Button onClick={() => edit("Keep the sections found", (draft) => keepFound(draft, layout, elevation))}>
        Keep these sections
      </Button>
    </div>
  );
}
