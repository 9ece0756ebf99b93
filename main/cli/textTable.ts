export interface Column<Row> {
  readonly title: string;
  readonly cell: (row: Row) => string;
  /** Numbers stand at the right. */
  readonly right?: boolean;
}

/** Lines of a cell: a cell may hold several, each on a line of its own. */
const linesOf = (cell: string): string[] => cell.split("\n");

/** Rows under titles in aligned columns, two spaces apart, without spaces at the ends of lines. */
export function textTable<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const cells = [columns.map(({ title }) => title), ...rows.map((row) => columns.map(({ cell }) => cell(row)))];
  const widths = columns.map((_, c) =>
    Math.max(...cells.flatMap((row) => linesOf(row[c] ?? "").map((line) => [...line].length))),
  );
  const pad = (text: string, c: number): string => {
    const space = " ".repeat((widths[c] ?? 0) - [...text].length);
    return columns[c]?.right ? space + text : text + space;
  };
  const printed = cells.flatMap((row) => {
    const split = row.map(linesOf);
    const height = Math.max(...split.map(({ length }) => length));
    return Array.from({ length: height }, (_, line) =>
      split
        .map((lines, c) => pad(lines[line] ?? "", c))
        .join("  ")
        .trimEnd(),
    );
  });
  return `${printed.join("\n")}\n`;
}

/** Words in lines of at most `width` characters, broken between words only. */
export function wrapped(words: readonly string[], width: number): string {
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.join("\n");
}
