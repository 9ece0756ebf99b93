/** Where a JSON text breaks the grammar first. Line and column count from 1. */
export interface JsonFault {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
}

const number = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const word = /true|false|null/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: bare control characters are just what JSON forbids in a text
const unclosed = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*/y;
const string = new RegExp(`${unclosed.source}"`, "y");

/**
 * Finds the first place where a text stops being JSON (RFC 8259). Run after a parser has refused the text, because
 * parsers of different makers tell the place in different words or not at all.
 *
 * @param text any text
 * @returns the fault, or null when the text is JSON
 *
 * Time O(length), memory O(depth).
 */
export function jsonFault(text: string): JsonFault | null {
  let at = 0;
  const open: ("{" | "[")[] = [];
  const skip = () => {
    while (at < text.length && " \t\r\n".includes(text[at] ?? "")) at++;
  };
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  let expected = "a value";
  for (;;) {
    skip();
    const next = text[at];
    if (expected.startsWith("a value")) {
      if (next === "]" && expected.endsWith("]")) {
        open.pop();
        at++;
        expected = "after";
      } else if (next === "{" || next === "[") {
        open.push(next);
        at++;
        expected = next === "{" ? "a key in double quotes or }" : "a value or ]";
      } else if (next !== undefined && (take(string) || take(number) || take(word))) expected = "after";
      else return fault(text, stopOf(text, at), next === '"' ? "the rest of the text and its closing quote" : expected);
    } else if (expected.startsWith("a key")) {
      if (next === "}" && expected.endsWith("}")) {
        open.pop();
        at++;
        expected = "after";
      } else if (take(string)) expected = ":";
      else return fault(text, stopOf(text, at), expected);
    } else if (expected === ":") {
      if (next !== ":") return fault(text, at, ": after the key");
      at++;
      expected = "a value";
    }
    if (expected !== "after") continue;
    skip();
    const inside = open.at(-1);
    if (inside === undefined) return at === text.length ? null : fault(text, at, "the end of the file");
    const close = inside === "{" ? "}" : "]";
    if (text[at] === ",") expected = inside === "{" ? "a key in double quotes" : "a value";
    else if (text[at] === close) open.pop();
    else return fault(text, at, `, or ${close}`);
    at++;
  }
}

/** A faulty string is faulty where it breaks, not where it starts. */
function stopOf(text: string, at: number): number {
  if (text[at] !== '"') return at;
  unclosed.lastIndex = at;
  return unclosed.test(text) ? unclosed.lastIndex : at;
}

function fault(text: string, at: number, expected: string): JsonFault {
  const before = text.slice(0, at);
  const line = before.split("\n").length;
  const next = text[at];
  const found =
    next === undefined ? "the end of the file" : next === "\n" || next === "\r" ? "the end of the line" : next;
  return { line, column: at - before.lastIndexOf("\n"), found, expected };
}
