/** Frames to wait for a thing that is drawn only once it comes near the screen. */
const patience = 12;

/**
 * Brings a thing of a drawing into view and gives it the keyboard's focus. A drawing that is not there yet is scrolled to
 * first; a thing that is nowhere drawn is left alone.
 *
 * @param within selector of what holds its drawing, to be scrolled to while the thing itself is not drawn
 */
export function bringToView(name: string, within: string | null = null): void {
  const look = (left: number): void => {
    const element = document.querySelector<SVGElement>(`[data-id="${CSS.escape(name)}"]`);
    if (element !== null) {
      element.scrollIntoView({ block: "center", inline: "center" });
      element.focus({ preventScroll: true });
      return;
    }
    if (left === 0) return;
    if (within !== null) document.querySelector(within)?.scrollIntoView({ block: "center" });
    requestAnimationFrame(() => look(left - 1));
  };
  requestAnimationFrame(() => look(patience));
}
