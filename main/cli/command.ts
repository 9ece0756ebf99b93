import type { Terminal } from "./reporting.ts";

/** Runs a command of the terminal to its exit status. No way out of it shows a stack trace. */
export async function runCommand(
  command: (args: readonly string[], terminal: Terminal, aborted: AbortSignal) => Promise<number>,
): Promise<void> {
  const aborting = new AbortController();
  process.once("SIGINT", () => aborting.abort());
  process.once("SIGTERM", () => aborting.abort());
  for (const stream of [process.stdout, process.stderr]) {
    // Whoever read it has gone, as with `| head`: there is nobody left to tell.
    stream.on("error", (cause: NodeJS.ErrnoException) => process.exit(cause.code === "EPIPE" ? 0 : 1));
  }
  const terminal: Terminal = {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    watched: process.stderr.isTTY === true,
  };
  try {
    process.exitCode = await command(process.argv.slice(2), terminal, aborting.signal);
  } catch (cause) {
    terminal.err(`The program broke a promise of its own: ${cause instanceof Error ? cause.message : String(cause)}\n`);
    process.exitCode = 1;
  }
}
