import type { ReactNode } from "react";
import type { Rectangle } from "./rectangle.ts";

/** What every selectable mark of a drawing is told. */
export interface MarkState {
  readonly selected: boolean;
  readonly hovered: boolean;
  readonly active: boolean;
}

export interface MarkActions {
  readonly onSelect: (id: string | null) => void;
  readonly onHover: (id: string | null) => void;
  readonly setActive: (id: string) => void;
}

export interface MarkProps extends MarkActions, MarkState {
  readonly id: string;
  readonly says: string;
  readonly kind: string;
  /** Where the ring of the keyboard's focus goes. */
  readonly ring: Rectangle;
  readonly role?: "button" | "radio";
  readonly children: ReactNode;
}

/** A selectable thing in a drawing: one element with a role, a sentence and a ring for the keyboard. */
export function Mark({ id, says, kind, ring, role = "button", children, ...rest }: MarkProps) {
  const { selected, hovered, active, onSelect, onHover, setActive } = rest;
  const state = `${selected ? " is-selected" : ""}${hovered ? " is-hovered" : ""}`;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: its role is always given, button or radio
    // biome-ignore lint/a11y/useAriaPropsSupportedByRole: pressed goes with button, checked with radio
    <g
      className={`draw-mark draw-${kind}${state}`}
      role={role}
      tabIndex={active ? 0 : -1}
      aria-label={says}
      aria-pressed={role === "button" ? selected : undefined}
      aria-checked={role === "radio" ? selected : undefined}
      data-id={id}
      onClick={(event) => {
        event.stopPropagation();
        setActive(id);
        onSelect(id);
      }}
      onFocus={() => {
        setActive(id);
        onHover(id);
      }}
      onBlur={() => onHover(null)}
      onPointerEnter={() => onHover(id)}
      onPointerLeave={() => onHover(null)}
    >
      <title>{says}</title>
      {children}
      <rect
        className="draw-ring"
        x={ring.x - 3}
        y={ring.y - 3}
        width={ring.width + 6}
        height={ring.height + 6}
        rx={2}
      />
    </g>
  );
}
