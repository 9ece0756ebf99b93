import { plannerOn } from "../workers/planRunner.ts";
import { workerFromSource } from "../workers/workerFile.ts";
import { runCommand } from "./command.ts";
import { planCommand } from "./planCommand.ts";

await runCommand((args, terminal, aborted) => planCommand(args, terminal, plannerOn(workerFromSource()), aborted));
