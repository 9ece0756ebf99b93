import type { ReactNode } from "react";

const parts = /(\d+\/\d+)|( (?:in|mm)(?![a-z]))/g;

/** Numbers as a drawing sets them: true fractions close to their whole number, the unit smaller. Inside an SVG text. */
export function Figure({ text }: { readonly text: string }): ReactNode {
  const set: ReactNode[] = [];
  let done = 0;
  for (const found of text.matchAll(parts)) {
    const fraction = found[1] !== undefined;
    let before = text.slice(done, found.index);
    if (fraction && /\d $/.test(before)) before = `${before.slice(0, -1)}\u200a`;
    if (before) set.push(<tspan key={done}>{before}</tspan>);
    set.push(
      <tspan key={`${done}:${found[0]}`} className={fraction ? "draw-fraction" : "draw-unit"}>
        {fraction ? found[0] : `\u2009${found[0].trim()}`}
      </tspan>,
    );
    done = found.index + found[0].length;
  }
  if (done < text.length) set.push(<tspan key={done}>{text.slice(done)}</tspan>);
  return set;
}
