import type { SVGProps } from "react";

/** A group for the eye alone: what it shows is said in full by the marks that it belongs to. */
export function Unheard({ children, ...rest }: SVGProps<SVGGElement>) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group can't be focused unless it is given a tab index
    <g aria-hidden="true" {...rest}>
      {children}
    </g>
  );
}
