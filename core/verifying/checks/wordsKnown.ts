import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("wordsKnown");

const known = {
  nesting: ["crosscut", "free"],
  role: ["panel", "fill"],
  direction: ["vertical", "horizontal"],
  sectionDirection: ["vertical", "horizontal", "either"],
  axis: ["x", "y"],
  kind: ["break", "bodyLine", "colourEdge", "open"],
  turn: [0, 90, 180, 270],
  travel: ["left", "right", "up", "down", "none"],
  zoneRule: ["never", "avoid"],
  breakType: ["gap", "moulding", "bodyLine"],
  edge: ["left", "right", "bottom", "top"],
  pieceTurn: ["fixed", "half", "quarter"],
  lay: ["one-way", "two-way", "any"],
  heads: ["same", "alternate"],
  joint: ["lapped", "butted"],
  mirror: ["exact", "follow"],
  hold: ["seam", "noSeam", "width", "direction"],
  fittingRole: ["inlay", "panel", "fill", "overlay", "decal"],
  oneLot: ["elevation", "subject", "none"],
} as const;

/** A word that no rule here knows is a breach, in the job or in the plan: what can't be judged is never fine. */
export const wordsKnown: LayoutCheck = ({ job: { instance }, layout }) => {
  const found: Violation[] = [];
  const hold = (what: keyof typeof known, word: unknown, at: readonly string[]): void => {
    if (!(known[what] as readonly unknown[]).includes(word)) {
      found.push(breach(at, `${what} ${JSON.stringify(word)} is none of ${known[what].join(", ")}`));
    }
  };
  hold("oneLot", instance.rules.oneLot, []);
  for (const { id, lay, joint } of instance.films) {
    hold("lay", lay, [id]);
    hold("joint", joint, [id]);
  }
  for (const { id, turn } of instance.pieces) hold("pieceTurn", turn, [id]);
  for (const elevation of instance.elevations) {
    hold("travel", elevation.travel, [elevation.id]);
    hold("mirror", elevation.mirror, [elevation.id]);
    hold("heads", elevation.heads, [elevation.id]);
    for (const entry of elevation.holds) {
      hold("hold", entry.kind, [elevation.id, entry.id]);
      if (entry.kind === "direction") hold("direction", entry.direction, [elevation.id, entry.id]);
      else hold("axis", entry.axis, [elevation.id, entry.id]);
    }
    for (const section of elevation.sections) {
      hold("sectionDirection", section.direction, [elevation.id, section.id]);
      hold("heads", section.heads, [elevation.id, section.id]);
    }
    for (const zone of [...elevation.keepClear, ...elevation.obstacles])
      hold("zoneRule", zone.rule, [elevation.id, zone.id]);
    for (const line of elevation.breaks) hold("breakType", line.type, [elevation.id, line.id]);
    for (const line of [...elevation.breaks, ...elevation.colourEdges])
      hold("axis", line.axis, [elevation.id, line.id]);
    for (const fill of elevation.fill) hold("edge", fill.edge, [elevation.id]);
  }
  hold("nesting", layout.nesting, [layout.id]);
  for (const panel of layout.panels) {
    hold("role", panel.role, [panel.id]);
    hold("direction", panel.direction, [panel.id]);
  }
  for (const seam of layout.seams) {
    hold("axis", seam.axis, [seam.id]);
    hold("kind", seam.kind, [seam.id]);
  }
  for (const { elevation, id, direction } of layout.sections ?? []) hold("direction", direction, [elevation, id]);
  for (const { elevation, name, axis } of layout.dimensions ?? []) hold("axis", axis, [elevation, name]);
  for (const { item, role } of layout.fitting ?? []) hold("fittingRole", role, [item]);
  for (const { elevation, section, axis } of layout.differences ?? []) {
    if (axis !== null) hold("axis", axis, [elevation, section]);
  }
  for (const load of layout.rolls) {
    for (const cut of load.cuts) for (const piece of cut.pieces) hold("turn", piece.turn, [load.id, piece.id]);
  }
  return found;
};
