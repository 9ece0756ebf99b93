import { Button } from "../controls/Button.tsx";
import { useCommands, useSheet } from "../state/context.ts";

/** One step of zooming: two steps up and two down end where they began. */
export const zoomStep = Math.SQRT2;

/** Larger, smaller, fitted: for elevations and film at once, so that both keep one scale. */
export function ZoomTools({ current }: { readonly current: number }) {
  const zoom = useSheet((state) => state.view.zoom);
  const { changeView } = useCommands();
  return (
    <fieldset className="group">
      <legend className="only-heard">Size of the drawings</legend>
      <Button aria-label="Smaller" shortcut="-" onClick={() => changeView({ zoom: current / zoomStep })}>
        −
      </Button>
      <Button
        aria-pressed={zoom === null}
        shortcut="0"
        onClick={() => changeView({ zoom: null })}
        title="As large as the band allows"
      >
        Fit
      </Button>
      <Button aria-label="Larger" shortcut="+" onClick={() => changeView({ zoom: current * zoomStep })}>
        +
      </Button>
    </fieldset>
  );
}
