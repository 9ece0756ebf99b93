import type { ButtonHTMLAttributes, ReactNode } from "react";

interface ButtonProps extends ButtonHTMLAttributes<HTMLButtonElement> {
  readonly children: ReactNode;
  /** The one action that a place leads to, or one that takes something away. */
  readonly weight?: "plain" | "main" | "bare";
  /** Shown in the tip, and told to assistive technology. */
  readonly shortcut?: string;
}

/** A named action. */
export function Button({ children, weight = "plain", shortcut, className, title, ...rest }: ButtonProps) {
  const tip = [title, shortcut].filter(Boolean).join(" · ");
  return (
    <button
      type="button"
      className={["button", `button-${weight}`, className].filter(Boolean).join(" ")}
      title={tip === "" ? undefined : tip}
      aria-keyshortcuts={shortcut?.replaceAll("Ctrl", "Control")}
      {...rest}
    >
      {children}
    </button>
  );
}
