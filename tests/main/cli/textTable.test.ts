import { expect, test } from "vitest";
import { textTable, wrapped } from "../../../main/cli/textTable.ts";

test("columns are as wide as their widest cell, numbers at the right, lines without spaces at the end", () => {
  const rows = [
    { name: "a", size: "5", note: "" },
    { name: "longer", size: "1000", note: "one,\ntwo" },
  ];
  const table = textTable<(typeof rows)[number]>(
    [
      { title: "name", cell: ({ name }) => name },
      { title: "size", cell: ({ size }) => size, right: true },
      { title: "note", cell: ({ note }) => note },
    ],
    rows,
  );
  expect(table).toBe(["name    size  note", "a          5", "longer  1000  one,", "              two", ""].join("\n"));
});

test("characters of two code units count once", () => {
  expect(textTable([{ title: "x", cell: (cell: string) => cell, right: true }], ["\u{1F68C}a", "b"])).toBe(
    [" x", "\u{1F68C}a", " b", ""].join("\n"),
  );
});

test("words break into lines only between them", () => {
  expect(wrapped(["aa", "bb", "cccccc", "d"], 5)).toBe("aa bb\ncccccc\nd");
});
