import { type ReactNode, useEffect, useId, useRef } from "react";
import { Button } from "./Button.tsx";

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at the foot, the main one last; a way out is always there. */
  readonly actions?: ReactNode;
  readonly closeWord?: string;
  readonly wide?: boolean;
}

/** Something that must not be half done: over the sheet, focus kept inside, Escape leads out. */
export function Dialog({ title, onClose, children, actions, closeWord = "Close", wide = false }: DialogProps) {
  const element = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const dialog = element.current;
    if (dialog === null || dialog.open) return;
    dialog.showModal();
    // The first control rather than the body, which takes the focus where it scrolls.
    dialog.querySelector<HTMLElement>("input, select, button, a[href]")?.focus();
    return () => dialog.close();
  }, []);
  return (
    <dialog
      ref={element}
      className={wide ? "dialog dialog-wide" : "dialog"}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={heading}>{title}</h2>
      <div className="dialog-body">{children}</div>
      <div className="dialog-actions">
        <Button onClick={onClose}>{closeWord}</Button>
        {actions}
      </div>
    </dialog>
  );
}
