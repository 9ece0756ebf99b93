import type { Problem } from "../../shared/problem.ts";

/** How one option is read: its value, or a sentence on what it takes. */
type Reader<T> = (given: string) => { readonly value: T } | { readonly takes: string };

export interface CommandForm {
  readonly usage: string;
  /** Names of what stands without an option, in order; all are needed. */
  readonly operands: readonly string[];
  /** Options with a value. */
  readonly options: Readonly<Record<string, Reader<unknown>>>;
  /** Options without one. */
  readonly flags: readonly string[];
}

export interface CommandLine {
  readonly operands: readonly string[];
  readonly options: ReadonlyMap<string, unknown>;
  readonly flags: ReadonlySet<string>;
}

export const wholeNumber =
  (least: number, most: number): Reader<number> =>
  (given) => {
    const value = Number(given);
    const fits = /^[+-]?\d+$/.test(given.trim()) && value >= least && value <= most;
    return fits ? { value } : { takes: `a whole number from ${least} to ${most}` };
  };

export const positiveNumber =
  (most: number): Reader<number> =>
  (given) => {
    const value = Number(given);
    const fits = given.trim() !== "" && Number.isFinite(value) && value > 0 && value <= most;
    return fits ? { value } : { takes: `a number above 0, at most ${most}` };
  };

export const someText: Reader<string> = (given) => (given === "" ? { takes: "a text" } : { value: given });

/**
 * Reads the arguments of a command; `--name value` and `--name=value` mean the same, `--` ends the options.
 *
 * @returns what was asked for, and every problem at once; only without problems is the former complete
 */
export function readCommandLine(form: CommandForm, args: readonly string[]): CommandLine & { problems: Problem[] } {
  const operands: string[] = [];
  const options = new Map<string, unknown>();
  const flags = new Set<string>();
  const problems: Problem[] = [];
  const wrong = (path: string, value: unknown, why: string, mend: string): void => {
    problems.push({ path, value, why, mend });
  };
  let onlyOperands = false;
  for (let i = 0; i < args.length; i++) {
    const argument = args[i] ?? "";
    if (onlyOperands || !argument.startsWith("-") || argument === "-") {
      operands.push(argument);
      continue;
    }
    if (argument === "--") {
      onlyOperands = true;
      continue;
    }
    const [, name = argument, inline] = /^(--[^=]+)(?:=(.*))?$/s.exec(argument) ?? [];
    const reader = form.options[name];
    if (form.flags.includes(name)) {
      if (inline !== undefined) wrong(name, inline, "This option takes no value", `Give ${name} alone`);
      flags.add(name);
    } else if (reader === undefined) {
      const known = [...Object.keys(form.options), ...form.flags].join(" ");
      wrong(name, argument, "There is no such option", `Known are ${known}`);
    } else if (options.has(name)) {
      wrong(name, inline ?? args[++i] ?? null, "This option is given twice", "Give it once");
    } else {
      const given = inline ?? args[++i];
      const read = given === undefined ? { takes: "a value" } : reader(given);
      if ("value" in read) options.set(name, read.value);
      else {
        options.set(name, null); // so that a second one is told apart from a first
        wrong(name, given ?? null, `This option takes ${read.takes}`, "Give one");
      }
    }
  }
  for (const missing of form.operands.slice(operands.length))
    wrong(missing, null, `No ${missing} is named`, "Name one");
  for (const extra of operands.slice(form.operands.length)) {
    wrong("arguments", extra, "This is one name too many", `Name ${form.operands.join(" and ")} only`);
  }
  return { operands, options, flags, problems };
}
