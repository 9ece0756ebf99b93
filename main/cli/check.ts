import { checkCommand } from "./checkCommand.ts";
import { runCommand } from "./command.ts";

await runCommand(checkCommand);
