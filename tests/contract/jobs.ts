import type { JobJson } from "../../shared/host.ts";

/** A wall in a clinic's waiting room: wider than the film, so that it takes two panels. */
export const clinicWall: JobJson = {
  format: "lapwright-job",
  version: 1,
  name: "Clinic wall",
  units: "in",
  elevations: [
    {
      id: "wall",
      name: "Waiting room wall",
      film: "wall",
      outline: [
        [0, 0],
        [90, 0],
        [90, 40],
        [0, 40],
      ],
      openings: [
        {
          id: "hatch",
          outline: [
            [60, 10],
            [72, 10],
            [72, 30],
            [60, 30],
          ],
        },
      ],
      sections: [{ id: "all", box: [0, 0, 90, 40], direction: "vertical" }],
    },
  ],
  films: [
    {
      id: "wall",
      rollWidths: [54],
      edgeMargin: 0.5,
      rollLength: 1800,
      pricePerArea: 0.012,
      lay: "one-way",
    },
  ],
  rules: {
    bleed: 1,
    overlap: 1,
    colourEdgeOverlap: 0.25,
    trimOverlap: 4,
    cutGap: 0.5,
    leader: 12,
    trailer: 6,
  },
};

/** The same wall with one lettering across it that no seam may touch: wider than any panel, so no plan exists. */
export const letteredWall: JobJson = {
  ...clinicWall,
  name: "Lettered wall",
  elevations: [
    {
      ...(clinicWall.elevations as JobJson[])[0],
      keepClear: [{ id: "name", label: "WAITING ROOM", box: [5, 5, 85, 9], rule: "never" }],
    },
  ],
};

/** A job that can't be read: two fields are wrong. */
export const brokenJob: JobJson = { ...clinicWall, units: "ell", films: [{ id: "wall", rollWidths: [] }] };

export const emptyJob: JobJson = { ...clinicWall, name: "New job", elevations: [], films: [] };
