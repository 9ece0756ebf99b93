import { mirrorGroups } from "../../core/choosing/mirrorGroups.ts";
import { panellingLimits, widthChoices } from "../../core/choosing/rollWidths.ts";
import { seededRandom } from "../../core/index.ts";
import { coverParted } from "../../core/panelling/coverParted.ts";
import { instanceOf } from "../support/planJob.ts";
import { benchJob } from "./jobs.ts";

/**
 * Panels all elevations of one job once, on every roll width, and prints one line of JSON. Started as a process of its own
 * by the benchmark, so that every repeat begins cold; reading the job is not counted.
 */
const [name = "demo", seed = "1"] = process.argv.slice(2);
const instance = instanceOf(await benchJob(name));
const run = { random: seededRandom(Number(seed)), stop: () => false, report: () => {}, work: null };
const began = performance.now();
let coverings = 0;
for (const choice of widthChoices(instance)) {
  const limits = panellingLimits(instance, choice, null);
  for (const { source, mirrors } of mirrorGroups(instance.elevations)) {
    const covered = coverParted(instance, source, mirrors, limits, run);
    coverings += "coverings" in covered ? covered.coverings.length : 0;
  }
}
console.log(JSON.stringify({ seconds: (performance.now() - began) / 1000, coverings }));
