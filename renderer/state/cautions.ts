import type { JobFile } from "../../shared/jobFile.ts";

/** A caution for the people who print and fit, with where it was met. It advises; local codes decide. */
export interface Caution {
  readonly id: string;
  readonly says: string;
  /** What in the job calls for it. */
  readonly because: string;
  /** Things of the sheet it stands beside; empty for the whole job. */
  readonly at: readonly string[];
}

export const governs = "Local codes and licensed practice govern.";

interface Trigger {
  readonly id: string;
  readonly says: string;
  readonly zone?: readonly string[];
  readonly obstacle?: RegExp;
  readonly opening?: RegExp;
  /** In the names of job, elevation and subject. */
  readonly named?: RegExp;
  readonly film?: RegExp;
}

/** Words of a kind or a name that call for a caution; the text of each rule behind them is in the reference notes. */
const triggers: readonly Trigger[] = [
  {
    id: "glazing",
    says: "Keep printed film off the windscreen and the glass beside the driver.",
    opening: /wind(ow|screen|shield)|glass|glaz|screen|pane\b/i,
    film: /perforated|window/i,
  },
  {
    id: "lamps",
    says: "Cut round every lamp and reflector; do not tint a lens.",
    obstacle: /lamp|light|reflector|lens/i,
    opening: /lamp|light|reflector|lens/i,
  },
  { id: "conspicuity", says: "Leave conspicuity tape showing, or refit it on top.", named: /trailer/i },
  {
    id: "plates",
    says: "Mark the plate, VIN window and maker's label as keep-clear areas.",
    zone: ["plate"],
    obstacle: /plate|vin\b/i,
  },
  {
    id: "exits",
    says: "Never cover or bridge an exit, its frame, its handle or its words.",
    zone: ["exit"],
    obstacle: /exit|hatch|emergency/i,
    opening: /exit|hatch|emergency/i,
    named: /\bbus(es)?\b|coach/i,
  },
  {
    id: "placards",
    says: "Keep 3 in clear round placards; avoid diamond shapes in hazard colours.",
    zone: ["placard"],
    obstacle: /placard/i,
  },
  {
    id: "flaps",
    says: "Copy or leave fuel and charging labels; do not seal the flap.",
    obstacle: /fuel|gas|charg|flap|filler/i,
    opening: /fuel|charg|filler/i,
  },
  {
    id: "sensors",
    says: "No film over radar, camera, lidar or parking sensors unless the vehicle maker allows it.",
    zone: ["sensor"],
    obstacle: /sensor|radar|camera|lidar/i,
  },
  { id: "parts", says: "Agree in writing which parts come off.", obstacle: /handle|badge|trim|mirror|hinge|rail/i },
  { id: "walls", says: "Ask for the film's fire report on this wall type.", named: /\bwall|lobby|corridor|clinic/i },
  { id: "doors", says: "Do not disguise doors or exit signs.", named: /\bwall|corridor|clinic/i, opening: /door/i },
  {
    id: "floors",
    says: "Use a floor laminate with a slip report; walls and windows film is not for floors.",
    named: /floor/i,
  },
  {
    id: "glass",
    says: "Check the glass type before covering sun-facing panes.",
    named: /shelter|shop ?front|glass|window/i,
  },
];

const words = (...parts: readonly (string | null | undefined)[]): string => parts.filter(Boolean).join(" ");

/** The cautions that a job calls for, in a fixed order, each once with every place it was met. */
export function cautionsFor(job: JobFile): Caution[] {
  return triggers.flatMap((trigger) => {
    const at: string[] = [];
    const because: string[] = [];
    for (const elevation of job.elevations) {
      const title = elevation.name || elevation.id;
      const met = (thing: string, why: string): void => {
        at.push(thing);
        because.push(`${why} on ${title}`);
      };
      for (const zone of elevation.keepClear ?? []) {
        if (trigger.zone?.includes(zone.reason)) {
          met(`zone:${elevation.id}/keepClear/${zone.id}`, `keep-clear ‘${zone.label || zone.id}’`);
        }
      }
      for (const obstacle of elevation.obstacles ?? []) {
        if (trigger.obstacle?.test(words(obstacle.kind, obstacle.id))) {
          met(`zone:${elevation.id}/obstacle/${obstacle.id}`, `${obstacle.kind} ‘${obstacle.id}’`);
        }
      }
      for (const opening of elevation.openings ?? []) {
        if (trigger.opening?.test(opening.id)) {
          met(`zone:${elevation.id}/opening/${opening.id}`, `opening ‘${opening.id}’`);
        }
      }
      if (trigger.named?.test(words(elevation.name, elevation.subject))) {
        met(`elevation:${elevation.id}`, "the name");
      }
    }
    for (const film of job.films) {
      if (trigger.film?.test(film.name)) because.push(`film ‘${film.name}’`);
    }
    if (at.length === 0 && because.length === 0 && trigger.named?.test(job.name) === true) {
      because.push("the job's name");
    }
    if (because.length === 0) return [];
    const first = because[0] as string;
    const rest = because.length - 1;
    return [{ id: trigger.id, says: trigger.says, because: rest === 0 ? first : `${first}, ${rest} more`, at }];
  });
}
