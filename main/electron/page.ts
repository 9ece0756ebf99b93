import type { Protocol } from "electron";
import { cacheRule, type ServedFile, safeHeaders } from "../files/rendererFiles.ts";

export const pageScheme = "lapwright";
/** What the window loads. */
export const pageAddress = `${pageScheme}://window/`;

/** Must be called before the app is ready. */
export function registerPageScheme(protocol: Pick<Protocol, "registerSchemesAsPrivileged">): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: pageScheme, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Serves the built renderer from its table, with the same headers as over HTTP; anything else is not there. */
export function servePage(protocol: Pick<Protocol, "handle">, files: ReadonlyMap<string, ServedFile>): void {
  protocol.handle(pageScheme, (request) => {
    const { host, pathname } = new URL(request.url);
    const file = host === "window" && request.method === "GET" ? files.get(pathname) : undefined;
    if (file === undefined) return new Response(null, { status: 404, headers: safeHeaders });
    const headers = { ...safeHeaders, "Content-Type": file.type, "Cache-Control": cacheRule(file) };
    return new Response(new Uint8Array(file.bytes), { status: 200, headers });
  });
}

/** Whether an address belongs to the program's own page. */
export function isPage(address: string): boolean {
  try {
    const { protocol, host, username, password } = new URL(address);
    return protocol === `${pageScheme}:` && host === "window" && username === "" && password === "";
  } catch {
    return false; // no address at all
  }
}
