import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingMessage } from "node:http";

const digest = (text: string): Buffer => createHash("sha256").update(text).digest();

/** 32 random bytes that the address carries behind its `#`, where no browser sends it on. */
export const newToken = (): string => randomBytes(32).toString("base64url");

/** Whether the request names this very server: a name of another machine that leads here is turned away. */
export function hostFits(request: IncomingMessage, port: number): boolean {
  const host = request.headers.host;
  return host === `127.0.0.1:${port}` || host === `localhost:${port}`;
}

/** Whether the request comes from a page of this server, or from no page at all. */
export function originFits(request: IncomingMessage): boolean {
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none") return false;
  return origin === undefined || origin === `http://${host}`;
}

/** Whether the request carries the token; takes the same time whatever it carries. */
export function tokenFits(request: IncomingMessage, token: string): boolean {
  const given = /^Bearer ([A-Za-z0-9_-]+)$/.exec(request.headers.authorization ?? "")?.[1] ?? "";
  return timingSafeEqual(digest(given), digest(token));
}
