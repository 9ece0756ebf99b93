import type { JobFile } from "../../shared/jobFile.ts";

/** A caution for the people who print and fit, with where it was met. It advises; local codes decide. */
export interface Caution {
  readonly id: string;
  readonly says: string;
  readonly source: string;
  /** What in the job calls for it. */
  readonly because: string;
  /** Things of the sheet it stands beside; empty for the whole job. */
  readonly at: readonly string[];
}

export const governs = "Local codes and licensed practice govern.";

interface Trigger {
  readonly id: string;
  readonly says: string;
  /** Where it is laid down, for whoever wants to read it. */
  readonly source: string;
  /** Reasons of keep-clear zones. */
  readonly zone?: readonly string[];
  /** In the kind and the id of an obstacle, and in what a keep-clear zone of another reason is called. */
  readonly obstacle?: RegExp;
  readonly opening?: RegExp;
  /** In the names of job, elevation and subject. */
  readonly named?: RegExp;
  readonly film?: RegExp;
  /** Any film whose panels meet edge to edge: such film goes on glass. */
  readonly butted?: boolean;
}

const practice = "common practice, no source";

/** Words of a kind or a name that call for a caution. The cautions are in our own words; each source is what is behind it. */
const triggers: readonly Trigger[] = [
  {
    id: "glazing",
    says: "Keep printed film off the windscreen and the glass beside the driver.",
    source: "49 CFR 393.60(c) and (d)",
    obstacle: /wind(screen|shield)|driver.?s? (glass|window)/i,
    opening: /wind(ow|screen|shield)|glass|glaz|screen|pane\b/i,
    film: /perforated|window/i,
  },
  {
    id: "lamps",
    says: "Cut round every lamp and reflector; do not tint a lens.",
    source: "49 CFR 393.9(b), 393.25(b)",
    obstacle: /lamp|light|reflector|lens|beacon|indicator/i,
    opening: /lamp|light|reflector|lens|beacon|indicator/i,
  },
  {
    id: "conspicuity",
    says: "Leave conspicuity tape showing, or refit it on top.",
    source: "49 CFR 393.13; UNECE R48 and R104",
    obstacle: /conspicuity|reflective|\btape\b/i,
    named: /trailer/i,
  },
  {
    id: "plates",
    says: "Mark the plate, VIN window and maker's label as keep-clear areas.",
    source: "49 CFR 565.13(f), 567.4(c) and (d)",
    zone: ["plate"],
    obstacle: /plate|vin\b|maker.?s? label/i,
  },
  {
    id: "carrier",
    says: "Redraw the carrier name and number on the new graphic.",
    source: "49 CFR 390.21(c)",
    obstacle: /carrier|operator|fleet number/i,
    named: /\b(lorry|truck|tractor)s?\b/i,
  },
  {
    id: "exits",
    says: "Never cover or bridge an exit, its frame, its handle or its words.",
    source: "49 CFR 393.62(e), 571.217 S5.5",
    zone: ["exit"],
    obstacle: /exit|hatch|emergency/i,
    opening: /exit|hatch|emergency/i,
    named: /\bbus(es)?\b|coach/i,
  },
  {
    id: "placards",
    says: "Keep 3 in (76 mm) clear round placards; avoid diamond shapes in hazard colours.",
    source: "49 CFR 172.516(c)(4), 172.502(a)(2)",
    zone: ["placard"],
    obstacle: /placard|hazard/i,
    opening: /placard/i,
    named: /\btanker\b|hazard/i,
  },
  {
    id: "flaps",
    says: "Copy or leave fuel and charging labels; do not seal the flap.",
    source: practice,
    obstacle: /fuel|\bgas\b|charg|flap|filler/i,
    opening: /fuel|charg|flap|filler/i,
  },
  {
    id: "sensors",
    says: "No film over radar, camera, lidar or parking sensors unless the vehicle maker allows it.",
    source: "the vehicle maker's handbook",
    zone: ["sensor"],
    obstacle: /sensor|radar|camera|lidar|sonar|bumper|grille/i,
    opening: /sensor|radar|camera|lidar|sonar/i,
  },
  {
    id: "airbags",
    says: "No film on airbag covers or their seams.",
    source: "NHTSA warning on stick-on emblems; pillar and seat seams from memory",
    obstacle: /air ?bag|\bsrs\b/i,
    opening: /air ?bag|\bsrs\b/i,
  },
  {
    id: "vents",
    says: "Leave vents, grilles and drains open; trim film back round them.",
    source: practice,
    obstacle: /\bvents?\b|grille|louv(re|er)|intake|exhaust|drain/i,
    opening: /\bvents?\b|grille|louv(re|er)|intake|exhaust|drain/i,
  },
  {
    id: "parts",
    says: "Agree in writing which parts come off.",
    source: practice,
    obstacle: /handle|badge|trim|mirror|hinge|rail|aerial|antenna/i,
  },
  {
    id: "moving",
    says: "Trim film fully at hinges, flaps and windows, so that everything still opens.",
    source: "Sign & Digital Graphics, February 2019, p. 53",
    obstacle: /hinge|flap|latch|\block\b|\bdoor\b/i,
    named: /\bbus(es)?\b|coach/i,
  },
  {
    id: "paint",
    says: "Test a hidden spot; ask the owner or conservation officer first.",
    source: "40 CFR 745 for paint of before 1978; repainted panels from memory",
    named: /heritage|listed|brick|plaster|repaint|old paint/i,
    obstacle: /repaint|old paint|fresh paint/i,
  },
  {
    id: "walls",
    says: "Ask for the film's fire report on this wall type.",
    source: "IBC chapter 8, NFPA 101 10.2, EN 13501-1",
    named: /\bwall|lobby|corridor|clinic/i,
  },
  {
    id: "doors",
    says: "Do not disguise doors or exit signs.",
    source: "29 CFR 1910.37(b)(3) and (4)",
    named: /\bwall|corridor|clinic/i,
    opening: /door/i,
    obstacle: /exit sign/i,
  },
  {
    id: "floors",
    says: "Use a floor laminate with a slip report; walls and windows film is not for floors.",
    source: "ANSI A326.3, EN 16165",
    named: /floor/i,
  },
  {
    id: "signs",
    says: "Keep tactile signs and glass warning marks clear.",
    source: "ADA 2010 703.4.1 and 703.5.1; warning marks from memory",
    obstacle: /tactile|braille|\bsigns?\b|warning (mark|band)|manifestation/i,
    opening: /tactile|braille|\bsigns?\b/i,
    named: /shelter|shop ?front|glass door/i,
  },
  {
    id: "glass",
    says: "Check the glass type before covering sun-facing panes.",
    source: "International Window Film Association, Avoiding glass failure",
    named: /shelter|shop ?front|glass|window/i,
    film: /window/i,
    butted: true,
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
        const called = zone.reason === "other" && trigger.obstacle?.test(words(zone.label, zone.id)) === true;
        if (called || trigger.zone?.includes(zone.reason)) {
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
      const meets = trigger.butted === true && film.joint === "butted";
      if (meets || trigger.film?.test(film.name)) because.push(`film ‘${film.name}’`);
    }
    if (at.length === 0 && because.length === 0 && trigger.named?.test(job.name) === true) {
      because.push("the job's name");
    }
    if (because.length === 0) return [];
    const first = because[0] as string;
    const rest = because.length - 1;
    const { id, says, source } = trigger;
    return [{ id, says, source, because: rest === 0 ? first : `${first}, ${rest} more`, at }];
  });
}
