import type { Row } from "./part.ts";

/** The marks between which a document keeps the benchmark's table. */
export const tableMarks = { begin: "<!-- bench: begin -->", end: "<!-- bench: end -->" } as const;

const head = ["| Part | What | Figure |", "| --- | --- | --- |"];
const cell = (text: string): string => text.replaceAll("|", "\\|").replaceAll("\n", " ");
const partOf = (line: string): string => /^\| (\S+) \|/.exec(line)?.[1] ?? "";

export interface MeasuredPart {
  readonly name: string;
  readonly rows: readonly Row[];
}

/**
 * The document with new rows for the parts that were measured; the rows of other parts stay as they are.
 *
 * @param order names of all parts, in the order of the table; rows of a part that is not among them go
 * @throws Error when the document does not hold both marks once, in their order
 */
export function withTable(document: string, measured: readonly MeasuredPart[], order: readonly string[]): string {
  const [before, rest, ...more] = document.split(tableMarks.begin);
  const [inside, after, ...evenMore] = (rest ?? "").split(tableMarks.end);
  if (before === undefined || inside === undefined || after === undefined || more.length + evenMore.length > 0) {
    throw new Error(`The document must hold "${tableMarks.begin}" and, after it, "${tableMarks.end}", each once.`);
  }
  const kept = inside.split("\n").filter((line) => line.startsWith("| ") && !head.includes(line));
  const lines = order.flatMap((name) => {
    const fresh = measured.find((part) => part.name === name);
    if (fresh === undefined) return kept.filter((line) => partOf(line) === name);
    return fresh.rows.map(({ what, figure }) => `| ${name} | ${cell(what)} | ${cell(figure)} |`);
  });
  return `${before}${tableMarks.begin}\n\n${[...head, ...lines].join("\n")}\n\n${tableMarks.end}${after}`;
}
