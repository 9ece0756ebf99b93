import { basename } from "node:path";
import type { Handlers } from "../../shared/host.ts";
import { jobHandlers } from "./jobHandlers.ts";
import { planHandlers } from "./planHandlers.ts";
import { planRuns } from "./planRuns.ts";
import type { Services } from "./services.ts";

export interface HandledHost {
  readonly handlers: Handlers;
  /** Ends every planning run of the host and waits until their workers are gone. */
  readonly stopRuns: () => Promise<void>;
}

/** Every call of the contract on parsed input, for any host. */
export function handledHost(services: Services): HandledHost {
  const runs = planRuns(services);
  const { kind, version, dialogs, workFolder } = services;
  const folder = dialogs === null ? basename(workFolder) : null;
  return {
    handlers: {
      hostInfo: async () => ({ kind, version, dialogs: dialogs !== null, folder }),
      ...jobHandlers(services),
      ...planHandlers(services, runs),
    },
    stopRuns: runs.stopAll,
  };
}
