import { runCommand } from "./command.ts";
import { solveCommand } from "./solveCommand.ts";

await runCommand((args, terminal) => {
  // The search holds the only thread and would hear of a signal at its end alone; without a listener it ends at once.
  for (const signal of ["SIGINT", "SIGTERM"]) process.removeAllListeners(signal);
  return solveCommand(args, terminal, () => performance.now());
});
