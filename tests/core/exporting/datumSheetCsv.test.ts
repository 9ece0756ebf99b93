import Papa from "papaparse";
import { expect, test } from "vitest";
import { datumSheetCsv } from "../../../core/exporting/datumSheetCsv.ts";
import type { DatumRow } from "../../../core/model/datumRow.ts";
import { shelterJob } from "../../golden/shelter.ts";
import { instanceOf } from "../../support/planJob.ts";

const mm = 40_000;
const row: DatumRow = {
  elevation: "pane",
  kind: "lettering",
  id: "=1+1",
  label: '"Stop", line\n7',
  axis: null,
  fromEdges: { left: 20 * mm, right: -3 * mm, bottom: null, top: 5 * mm },
  atHeight: 100 * mm,
  atPlace: null,
  nearestBreak: { id: "rail", type: "bodyLine", axis: "y", side: "bottom", distance: 12 * mm },
  otherSide: {
    elevation: "back",
    id: "@2",
    fromEdges: { left: 21 * mm, right: -3 * mm, bottom: null, top: 5 * mm },
    difference: mm,
  },
};
const bare: DatumRow = { ...row, kind: "seam", id: "s", axis: "x", nearestBreak: null, otherSide: null };
const text = datumSheetCsv(instanceOf(shelterJob), [row, bare]);
const { data, errors, meta } = Papa.parse<Record<string, string>>(text.trimEnd(), { header: true });

test("one row each, as wide as the header; lines end as the standard says", () => {
  expect(errors).toEqual([]);
  expect(data.length).toBe(2);
  for (const each of data) expect(Object.keys(each)).toEqual(meta.fields);
  expect(new Set(meta.fields).size).toBe(meta.fields?.length);
  expect(text.split("\r\n").length).toBe(4);
});

test("texts are kept to one line and never run; numbers are plain; what is not measured is empty", () => {
  const [first, second] = data;
  expect(first?.id).toBe("'=1+1");
  expect(first?.label).toBe('"Stop", line 7');
  expect(first?.["id there"]).toBe("'@2");
  expect([first?.["from left edge (mm)"], first?.["from right edge (mm)"], first?.["from bottom edge (mm)"]]).toEqual([
    "20",
    "-3",
    "",
  ]);
  expect([first?.["nearest break"], first?.break, first?.["lies on side"]]).toEqual(["body line", "rail", "bottom"]);
  expect(first?.["greatest difference (mm)"]).toBe("1");
  expect([second?.["nearest break"], second?.["other side"], second?.["greatest difference (mm)"]]).toEqual([
    "",
    "",
    "",
  ]);
});
