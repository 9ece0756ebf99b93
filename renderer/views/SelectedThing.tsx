import type { ReactNode } from "react";
import { Button } from "../controls/Button.tsx";
import { cutOf, pieceOf, thingOf } from "../state/links.ts";
import { ElevationDetails } from "./ElevationDetails.tsx";
import { CutDetails, PanelDetails } from "./FilmDetails.tsx";
import { useOnSheet } from "./hooks.ts";
import { LayoutDetails } from "./LayoutDetails.tsx";
import { SeamDetails } from "./SeamDetails.tsx";
import { ZoneDetails } from "./ZoneDetails.tsx";

interface SelectedThingProps {
  readonly name: string | null;
  readonly onClose: () => void;
}

/** What is selected, whatever it is: its numbers, its reasons, its cautions. With nothing selected, the layout shown. */
export function SelectedThing({ name, onClose }: SelectedThingProps) {
  const found = useDetails(name);
  return (
    <section className="selected" aria-live="polite" aria-label="Selected">
      <div className="selected-head">
        <h3>{found.title}</h3>
        {name === null ? null : (
          <Button weight="bare" onClick={onClose} shortcut="Escape" title="Nothing selected">
            Back
          </Button>
        )}
      </div>
      {found.body}
    </section>
  );
}

function useDetails(name: string | null): { title: string; body: ReactNode } {
  const { layout, elevations } = useOnSheet();
  const hasElevations = elevations.length > 0;
  const thing = thingOf(name);
  if (thing?.kind === "elevation")
    return { title: "Elevation", body: <ElevationDetails name={thing.rest} key={thing.rest} /> };
  if (thing?.kind === "zone") return { title: "Zone", body: <ZoneDetails rest={thing.rest} /> };
  if (layout !== null && thing !== null) {
    if (thing.kind === "panel") {
      const panel = layout.panels.find(({ id }) => id === thing.rest);
      const title = panel?.role === "fill" ? "Fill piece" : panel === undefined ? "Loose piece" : "Panel";
      return { title, body: <PanelDetails id={thing.rest} copy={null} /> };
    }
    if (thing.kind === "piece") {
      const piece = pieceOf(thing.rest);
      if (piece !== null) return { title: "Piece on the film", body: <PanelDetails id={piece.id} copy={piece.copy} /> };
    }
    if (thing.kind === "cut") {
      const cut = cutOf(thing.rest);
      if (cut !== null) return { title: `Cut ${cut.number} of load ${cut.load}`, body: <CutDetails {...cut} /> };
    }
    if (thing.kind === "seam") return { title: "Seam", body: <SeamDetails name={name ?? ""} /> };
  }
  if (layout !== null) return { title: "Layout shown", body: <LayoutDetails layout={layout} /> };
  return {
    title: "Nothing selected",
    body: hasElevations ? <p className="aside">Point at an elevation to see its values.</p> : null,
  };
}
