import type { Elevation, Hold } from "../../core/index.ts";

/** Elevations of an instance that share their windows, each with whether it is seen as in a mirror from the first. */
function upToHead(elevations: readonly Elevation[], from: Elevation): Elevation[] {
  const chain = [from];
  for (let here = from; here.mirrorOf !== null && here.mirror === "exact"; ) {
    const next = elevations.find(({ id }) => id === here.mirrorOf);
    if (next === undefined || chain.includes(next)) break;
    chain.push(next);
    here = next;
  }
  return chain;
}

function reflected(hold: Hold, sum: number): Hold {
  if (hold.kind === "direction" || hold.axis === "y") return hold;
  if (hold.kind === "noSeam") return { ...hold, from: sum - hold.to, to: sum - hold.from };
  return { ...hold, at: sum - hold.at };
}

/** Every hold that binds an elevation, in its own view: those of all that share its windows, equal ones once. In ticks. */
export function holdsBinding(elevations: readonly Elevation[], elevation: Elevation): Hold[] {
  const own = upToHead(elevations, elevation);
  const sum = elevation.box.x0 + elevation.box.x1;
  const seen = new Map<string, Hold>();
  for (const other of elevations) {
    const chain = upToHead(elevations, other);
    if (chain.at(-1) !== own.at(-1)) continue;
    const turned = (chain.length + own.length) % 2 === 1;
    for (const hold of other.holds) {
      const here = turned ? reflected(hold, sum) : hold;
      seen.set(JSON.stringify(here), here);
    }
  }
  return [...seen.values()];
}
