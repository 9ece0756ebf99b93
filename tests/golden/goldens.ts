import { cutListCsv } from "../../core/exporting/cutListCsv.ts";
import { datumSheetCsv } from "../../core/exporting/datumSheetCsv.ts";
import { rollMapSvg } from "../../core/exporting/rollMapSvg.ts";
import { datumSheet } from "../../core/fitting/datumSheet.ts";
import { buildInstance } from "../../core/model/buildInstance.ts";
import type { Instance } from "../../core/model/instance.ts";
import type { Layout, Plan } from "../../core/model/plan.ts";
import { planText, readPlan } from "../../core/model/planDocument.ts";
import { readJob } from "../../core/model/readJob.ts";
import { dataFile } from "../support/dataFile.ts";
import { shelterJob, shelterLayout } from "./shelter.ts";

/** Every golden file by name, and how its text is made. */
export function goldens(): ReadonlyMap<string, string> {
  const booth = instanceOf(dataFile("puppet-booth.job.json"));
  const boothPlan = planOf(dataFile("puppet-booth.plan.json"));
  const shelter = instanceOf(shelterJob);
  const files = new Map<string, string>([["puppet-booth.plan.json", planText(boothPlan)]]);
  const exported: [string, Instance, Layout][] = [
    ...boothPlan.layouts.map((layout): [string, Instance, Layout] => [`puppet-booth.${layout.id}`, booth, layout]),
    ["shelter", shelter, shelterLayout],
  ];
  for (const [stem, instance, layout] of exported) {
    files.set(`${stem}.cuts.csv`, cutListCsv(instance, layout));
    files.set(`${stem}.datum.csv`, datumSheetCsv(instance, datumSheet(instance, layout)));
    files.set(`${stem}.rolls.svg`, rollMapSvg(instance, layout));
  }
  const [tight] = boothPlan.layouts;
  if (tight !== undefined) files.set("puppet-booth.tight.load-r3.svg", rollMapSvg(booth, tight, "r3"));
  return files;
}

function instanceOf(data: unknown): Instance {
  const { job, problems } = readJob(data);
  if (job === null) throw new Error(JSON.stringify(problems));
  const built = buildInstance(job);
  if (!("instance" in built)) throw new Error(JSON.stringify(built.problems));
  return built.instance;
}

function planOf(data: unknown): Plan {
  const { plan, problems } = readPlan(data);
  if (plan === null) throw new Error(JSON.stringify(problems));
  return plan;
}
