import type { EventBody, EventName } from "../../shared/host.ts";
import type { Planner } from "../workers/planRunner.ts";

/** The system's dialogs, where a shell has them. Each answers null when the user turns away. */
export interface Dialogs {
  readonly openJob: () => Promise<string | null>;
  readonly saveJob: (proposedName: string) => Promise<string | null>;
  readonly pickFolder: () => Promise<string | null>;
}

/** All that the handlers need and a host brings along. */
export interface Services {
  readonly kind: "electron" | "loopback";
  readonly version: string;
  readonly planner: Planner;
  /** null where a work folder stands in for dialogs. */
  readonly dialogs: Dialogs | null;
  readonly workFolder: string;
  readonly demo: string;
  /** Path of the job that the program was started with; null for the demo. */
  readonly firstJob: string | null;
  readonly emit: <E extends EventName>(event: E, body: EventBody<E>) => void;
}
