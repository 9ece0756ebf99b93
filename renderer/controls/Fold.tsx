import type { ReactNode } from "react";

interface FoldProps {
  readonly title: string;
  /** Said behind the title, in lighter type: what is inside in a few words. */
  readonly aside?: ReactNode;
  readonly open?: boolean;
  readonly id?: string;
  readonly children: ReactNode;
}

/** A part of the side column that can be folded away. */
export function Fold({ title, aside, open = false, id, children }: FoldProps) {
  return (
    <details className="fold" open={open} id={id}>
      <summary className="fold-title">
        <h3>{title}</h3>
        {aside === undefined ? null : <span className="aside">{aside}</span>}
      </summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
