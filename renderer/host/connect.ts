import type { Host } from "../../shared/host.ts";
import { bridgeHost } from "./bridgeHost.ts";
import { loopbackHost } from "./loopbackHost.ts";

export interface Connection {
  readonly host: Host;
  readonly close: () => void;
}

/** The token stands alone in the fragment, or as `token=`. It is kept in memory and taken out of the address. */
function takeToken(window: Window): string | null {
  const fragment = window.location.hash.slice(1);
  if (fragment === "") return null;
  const token = new URLSearchParams(fragment).get("token") ?? decodeURIComponent(fragment);
  window.history.replaceState(null, "", window.location.pathname + window.location.search);
  return token === "" ? null : token;
}

/** Picks the bridge where there is one, else the loopback server this page came from; null without either's key. */
export function connect(window: Window, onConnection: (standing: boolean) => void): Connection | null {
  if (window.lapwright !== undefined) {
    onConnection(true);
    return { host: bridgeHost(window.lapwright), close: () => undefined };
  }
  const token = takeToken(window);
  return token === null ? null : loopbackHost({ base: "", token, onConnection });
}
