import { seededRandom } from "../../core/index.ts";

type Corner = [number, number];
type Box = [number, number, number, number];

const rectangle = ([x0, y0, x1, y1]: Box): Corner[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** 12 m. */
const LENGTH = 472;

/**
 * A job file of a tram of six cars, both sides of each, no two alike: twelve elevations of 12 m by about 110 in, each with
 * four to eight breaks, windows, lettering, handles and a coloured band.
 *
 * @param findSections whether sections are looked for along the breaks
 * @returns what `readJob` takes; inches, the same for the same arguments
 */
export function twelveElevations({ findSections = true, seed = 1 } = {}) {
  const random = seededRandom(seed);
  const between = (least: number, most: number): number => Math.round((least + (most - least) * random()) * 2) / 2;
  return {
    format: "lapwright-job",
    version: 1,
    name: "Tram of six cars, both sides",
    units: "in",
    elevations: Array.from({ length: 12 }, (_, index) => side(index, between, findSections)),
    films: [
      {
        id: "cast",
        name: "Cast print film with gloss laminate",
        rollWidths: [54, 60],
        edgeMargin: 0.5,
        rollLength: 1800,
        pricePerArea: 0.0076,
        laminatePricePerArea: 0.0052,
        inkPricePerArea: 0.0024,
        lay: "two-way",
      },
    ],
    rules: {
      bleed: 3,
      overlap: 1,
      colourEdgeOverlap: 0.25,
      trimOverlap: 4,
      cutGap: 1,
      leader: 12,
      trailer: 6,
      seamPricePerLength: 0.06,
      avoidPenalty: 5,
      panelPrice: 6,
      clearances: { handle: 0.5 },
      currency: "USD",
    },
  };
}

/** One side of one car: two or three doors with a gap at either edge, a belt, on some a cantrail; end cars have a nose. */
function side(index: number, between: (least: number, most: number) => number, findSections: boolean) {
  const car = Math.floor(index / 2);
  const left = index % 2 === 0;
  const height = 104 + 2 * car;
  const cantrail = height - between(9, 14);
  const belt = between(44, 50);
  const doors = Array.from({ length: 2 + (index % 2) }, (_, door) => {
    const from = 60 + door * (index % 2 === 0 ? 220 : 140) + between(0, 40);
    return { from, to: from + between(44, 50) };
  });
  const gaps = doors.flatMap(({ from, to }, door) => [
    { id: `door ${door + 1} front`, axis: "x", at: from, from: 0, to: height, type: "gap", width: 0.5 },
    { id: `door ${door + 1} rear`, axis: "x", at: to, from: 0, to: height, type: "gap", width: 0.5 },
  ]);
  const level = [
    { id: "belt", axis: "y", at: belt, from: 0, to: LENGTH, type: car % 2 === 0 ? "moulding" : "bodyLine" },
    { id: "cantrail", axis: "y", at: cantrail, from: 0, to: LENGTH, type: "bodyLine" },
  ].slice(0, 1 + (car % 2));
  // Windows stand between the doors, at least 8 in from their gaps.
  const edges = [0, ...doors.flatMap(({ from, to }) => [from, to]), LENGTH];
  const windows = edges
    .filter((_, i) => i % 2 === 0)
    .flatMap((from, i) => {
      const to = edges[2 * i + 1] as number;
      return to - from > 40 ? [[from + 8, belt + 10, to - 8, cantrail - 6] as Box] : [];
    });
  const nose: Corner[] = [
    [0, 0],
    [LENGTH, 0],
    [LENGTH, height],
    [18, height],
    [0, height - 36],
  ];
  return {
    id: `car ${car + 1} ${left ? "left" : "right"}`,
    name: `Car ${car + 1}, ${left ? "left" : "right"} side`,
    subject: "tram",
    film: "cast",
    travel: left ? "left" : "right",
    findSections,
    outline: car === 0 && left ? nose : rectangle([0, 0, LENGTH, height]),
    openings: [
      ...windows.map((box, i) => ({ id: `window ${i + 1}`, outline: rectangle(box) })),
      ...doors.map(({ from, to }, i) => ({
        id: `door glass ${i + 1}`,
        outline: rectangle([from + 6, belt - 6, to - 6, cantrail - 8]),
      })),
    ],
    keepClear: [
      { id: "line", label: "Harbour Line", box: [190, 16, 250, 30], rule: "never" },
      { id: "town", label: "Run by the town", box: [300, belt - 14, 380, belt - 4], rule: "avoid" },
    ],
    breaks: [...gaps, ...level],
    colourEdges: [{ id: "band", axis: "y", at: 32 + (index % 3), from: 0, to: LENGTH }],
    obstacles: doors.map(({ to }, i) => ({ id: `button ${i + 1}`, kind: "handle", box: [to + 2, 38, to + 5, 42] })),
  };
}
