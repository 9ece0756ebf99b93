import { accessSync, constants, statSync } from "node:fs";
import { resolve } from "node:path";

export const usage = "Usage: npm start [-- JOB.json] [--port N] [--folder DIR] [--no-window]";

/**
 * What `npm start` was asked for.
 *
 * @param {readonly string[]} args
 * @returns {{ job: string | null, port: number, folder: string | null, window: boolean } | { fault: string }}
 */
export function readOptions(args) {
  const options = { job: null, port: 0, folder: null, window: true };
  for (let i = 0; i < args.length; i++) {
    const [name, inline] = args[i].startsWith("--") ? args[i].split(/=(.*)/s) : [args[i], undefined];
    const value = () => inline ?? args[++i];
    if (name === "--no-window") options.window = false;
    else if (name === "--port") {
      const given = value();
      if (!/^\d{1,5}$/.test(given ?? "") || Number(given) > 65535)
        return { fault: `--port takes 0 to 65535, not ${given}.` };
      options.port = Number(given);
    } else if (name === "--folder") {
      const given = value();
      if (!given) return { fault: "--folder takes a folder." };
      options.folder = resolve(given);
    } else if (name.startsWith("-")) return { fault: `There is no option ${name}.` };
    else if (options.job !== null) return { fault: `One job at a time: ${options.job} and ${name} were named.` };
    else options.job = name;
  }
  if (options.job === null) return options;
  const path = resolve(options.job);
  try {
    accessSync(path, constants.R_OK);
    if (statSync(path).isDirectory()) return { fault: `${options.job} is a folder, not a job file.` };
  } catch {
    return { fault: `${options.job} can't be read: there is no such file, or this user may not open it.` };
  }
  return { ...options, job: path };
}
