/** What the benchmark is asked for on its command line. */
export interface Wishes {
  /** Names of parts, in the order of the benchmark; all where none is named. */
  readonly parts: readonly string[];
  readonly repeats: number;
  /** Whether the table in the document is to be written. */
  readonly keep: boolean;
}

/** @throws Error naming what can't be read and what would be */
export function readWishes(args: readonly string[], known: readonly string[]): Wishes {
  const named: string[] = [];
  let repeats = 5;
  let keep = false;
  for (let place = 0; place < args.length; place++) {
    const arg = args[place] as string;
    if (arg === "--keep") keep = true;
    else if (arg === "--repeats") {
      const value = args[++place] ?? "";
      repeats = Number(value);
      if (!/^\d+$/.test(value) || repeats < 1) throw new Error(`--repeats takes a whole number from 1, not "${value}"`);
    } else if (known.includes(arg)) named.push(arg);
    else throw new Error(`There is no part "${arg}"; there are ${known.join(", ")}, and --repeats N and --keep`);
  }
  return { parts: known.filter((name) => named.length === 0 || named.includes(name)), repeats, keep };
}
