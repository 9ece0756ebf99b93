import { expect, test } from "vitest";
import { tableMarks, withTable } from "./keptTable.ts";
import { readWishes } from "./wishes.ts";

const order = ["demo", "fleet", "cutting"];
const rows = (figure: string) => [{ what: "time", figure }];
const empty = `# Notes\n\n${tableMarks.begin}\n${tableMarks.end}\n\nMore.\n`;

test("measured parts are written in order, and what stands around the table stays", () => {
  const once = withTable(
    empty,
    [
      { name: "cutting", rows: rows("2 s") },
      { name: "demo", rows: [...rows("1 s"), { what: "a | b", figure: "3" }] },
    ],
    order,
  );
  expect(once).toBe(
    [
      "# Notes",
      "",
      tableMarks.begin,
      "",
      "| Part | What | Figure |",
      "| --- | --- | --- |",
      "| demo | time | 1 s |",
      "| demo | a \\| b | 3 |",
      "| cutting | time | 2 s |",
      "",
      tableMarks.end,
      "",
      "More.",
      "",
    ].join("\n"),
  );
});

test("parts that were not measured keep their rows; measured again, only theirs change", () => {
  const once = withTable(empty, [{ name: "demo", rows: rows("1 s") }], order);
  const twice = withTable(once, [{ name: "fleet", rows: rows("30 s") }], order);
  expect(twice).toContain("| demo | time | 1 s |\n| fleet | time | 30 s |");
  expect(withTable(twice, [{ name: "fleet", rows: rows("29 s") }], order)).toBe(twice.replace("30 s", "29 s"));
  expect(withTable(twice, [], order)).toBe(twice);
});

test.each(["no marks", tableMarks.begin, `${tableMarks.end}${tableMarks.begin}`, `${empty}${empty}`])(
  "a document without both marks, each once, is refused: %j",
  (document) => {
    expect(() => withTable(document, [], order)).toThrow(/each once/);
  },
);

test("the command line names parts, repeats and whether to keep", () => {
  expect(readWishes([], order)).toEqual({ parts: order, repeats: 5, keep: false });
  expect(readWishes(["cutting", "--repeats", "2", "demo", "--keep"], order)).toEqual({
    parts: ["demo", "cutting"],
    repeats: 2,
    keep: true,
  });
  expect(() => readWishes(["demos"], order)).toThrow(/no part "demos"; there are demo, fleet, cutting/);
  expect(() => readWishes(["--repeats", "0"], order)).toThrow(/from 1/);
});
