import {
  cutListCsv,
  datumSheet,
  datumSheetCsv,
  type Instance,
  type Plan,
  planText,
  rollMapSvg,
} from "../../core/index.ts";
import type { ExportKind, LooseFile } from "../../shared/host.ts";
import { jobStem } from "../files/fileNames.ts";
import { Refusal } from "./refusal.ts";

/**
 * The files of one layout. The plan must have passed the verifier.
 *
 * @param name the job's name or file name; the files take its stem
 * @returns one file per kind, in the order of `kinds`, repeated kinds once
 * @throws Refusal when the plan holds no such layout
 */
export function exportFiles(
  instance: Instance,
  plan: Plan,
  layoutId: string,
  kinds: readonly ExportKind[],
  name: string,
): LooseFile[] {
  const layout = plan.layouts.find(({ id }) => id === layoutId);
  if (layout === undefined) throw new Refusal("unknown", "The plan holds no such layout.");
  const stem = jobStem(name);
  const make: Record<ExportKind, () => LooseFile> = {
    plan: () => ({ name: `${stem}.plan.json`, mime: "application/json", text: planText(plan) }),
    cutList: () => ({ name: `${stem}.cuts.csv`, mime: "text/csv", text: cutListCsv(instance, layout) }),
    datumSheet: () => ({
      name: `${stem}.datum.csv`,
      mime: "text/csv",
      text: datumSheetCsv(instance, datumSheet(instance, layout)),
    }),
    rollMap: () => ({ name: `${stem}.rolls.svg`, mime: "image/svg+xml", text: rollMapSvg(instance, layout) }),
  };
  return [...new Set(kinds)].map((kind) => make[kind]());
}
