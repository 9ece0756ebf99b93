import type { KeyboardEvent, ReactNode } from "react";

export interface SheetProps {
  readonly width: number;
  readonly height: number;
  readonly role: "group" | "radiogroup";
  readonly says: string;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  /** A click beside every mark. */
  readonly onGround?: (() => void) | undefined;
  readonly children: ReactNode;
}

/** The ground of a drawing: one pixel of it is one pixel of the screen, so lettering never grows with the scale. */
export function Sheet({ width, height, role, says, onKeyDown, onGround, children }: SheetProps) {
  return (
    <svg
      className="draw-sheet"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role={role}
      aria-label={says}
      onKeyDown={onKeyDown}
      onClick={onGround}
    >
      {children}
    </svg>
  );
}
