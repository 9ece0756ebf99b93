import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "../support/projectRoot.ts";
import { conditions } from "./conditions.ts";
import { type MeasuredPart, withTable } from "./keptTable.ts";
import type { Part, Row } from "./part.ts";
import { bins } from "./parts/bins.ts";
import { cutting } from "./parts/cutting.ts";
import { demo } from "./parts/demo.ts";
import { fleet } from "./parts/fleet.ts";
import { knapsacks } from "./parts/knapsacks.ts";
import { panelling } from "./parts/panelling.ts";
import { sections } from "./parts/sections.ts";
import { stop } from "./parts/stop.ts";
import { strips } from "./parts/strips.ts";
import { jobs } from "./parts/workedJobs.ts";
import { readWishes } from "./wishes.ts";

/**
 * Measures time, quality and memory. Prints what it measured and on what; nothing here passes or fails. `--keep` writes
 * the figures into the table of DEVELOPERS.md.
 */
const seed = 1;
const parts: readonly Part[] = [demo, jobs, fleet, stop, panelling, sections, cutting, knapsacks, bins, strips];
const names = parts.map(({ name }) => name);

async function measure(part: Part, repeats: number, where: string): Promise<MeasuredPart> {
  console.log(`\n${part.name}: ${part.title}`);
  const rows: Row[] = [{ what: part.title, figure: where }];
  const tell = (what: string, figure: string): void => {
    console.log(`  ${what.padEnd(44)} ${figure}`);
    rows.push({ what, figure });
  };
  await part.run({ seed, repeats, tell });
  return { name: part.name, rows };
}

const { parts: wanted, repeats, keep } = readWishes(process.argv.slice(2), names);
const { commit, machine, cores, node } = conditions();
console.log(`commit   ${commit}\nmachine  ${machine}\nnode     ${node}\nseed     ${seed}, ${repeats} repeats`);
const measured: MeasuredPart[] = [];
for (const part of parts) {
  if (!wanted.includes(part.name)) continue;
  measured.push(
    await measure(part, repeats, `commit ${commit}, seed ${seed}, ${cores} cores, Node ${process.version}`),
  );
}
if (keep) {
  const path = join(projectRoot, "DEVELOPERS.md");
  writeFileSync(path, withTable(readFileSync(path, "utf8"), measured, names));
  console.log("\nKept in DEVELOPERS.md");
}
