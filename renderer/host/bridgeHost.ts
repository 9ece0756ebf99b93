import { type CallName, type Host, HostRefusal, hostCalls } from "../../shared/host.ts";
import { Refused } from "./refusal.ts";

declare global {
  interface Window {
    /** Put there by the desktop shell's preload; absent in a browser. */
    readonly lapwright?: Host;
  }
}

/** Finds the refusal that crossed the bridge as the text of an error, behind whatever the bridge wrote before it. */
function refusalIn(message: string): HostRefusal | null {
  const start = message.indexOf('{"refused"');
  if (start < 0) return null;
  try {
    const refusal = HostRefusal.safeParse(JSON.parse(message.slice(start)));
    return refusal.success ? refusal.data : null;
  } catch {
    return null; // not a refusal: the caller gets the error as it came
  }
}

/** The desktop shell as a host: the bridge itself, with refusals turned back into what they were. */
export function bridgeHost(bridge: Host): Host {
  const calls = Object.fromEntries(
    (Object.keys(hostCalls) as CallName[]).map((name) => [
      name,
      async (input: unknown) => {
        try {
          return await (bridge[name] as (input: unknown) => Promise<unknown>)(input);
        } catch (cause) {
          const refusal = refusalIn(cause instanceof Error ? cause.message : String(cause));
          throw refusal === null ? cause : new Refused(refusal.refused, refusal.problems);
        }
      },
    ]),
  );
  return { ...calls, on: bridge.on } as unknown as Host;
}
