import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { cacheRule, type ServedFile, safeHeaders } from "../files/rendererFiles.ts";
import { answer } from "../handlers/dispatch.ts";
import { type HandledHost, handledHost } from "../handlers/handledHost.ts";
import { Refusal, type RefusalKind } from "../handlers/refusal.ts";
import type { Services } from "../handlers/services.ts";
import { eventStreams } from "./eventStreams.ts";
import { hostFits, newToken, originFits, tokenFits } from "./gate.ts";
import { requestBody } from "./requestBody.ts";

export interface LoopbackOptions extends Omit<Services, "kind" | "dialogs" | "emit"> {
  /** 0 for any free one. */
  readonly port: number;
  /** The built renderer. */
  readonly files: ReadonlyMap<string, ServedFile>;
  /** Called each time the last window has been away for some seconds; its runs are ended by then. */
  readonly gone?: () => void;
  /** Hears of broken promises, for a terminal. */
  readonly complain: (text: string) => void;
}

export interface LoopbackServer {
  /** Where it listens, without the token. */
  readonly origin: string;
  readonly token: string;
  /** What a browser opens. */
  readonly address: string;
  /** Whether any window has ever listened. */
  readonly seen: () => boolean;
  /** Ends every run, every stream and the server. */
  readonly close: () => Promise<void>;
}

const statusOf: Readonly<Record<RefusalKind, number>> = { badInput: 400, unknown: 404, notNow: 409 };

/**
 * Serves the built renderer and the host contract to a browser on this machine: on 127.0.0.1 alone, every call behind a
 * random token and with `Host` and `Origin` checked.
 *
 * @throws the system's error when the port can't be had
 */
export async function startLoopback(options: LoopbackOptions): Promise<LoopbackServer> {
  const token = newToken();
  const streams = eventStreams(() => {
    host.stopRuns().then(() => options.gone?.());
  });
  const host: HandledHost = handledHost({ ...options, kind: "loopback", dialogs: null, emit: streams.emit });

  const server = createServer((request, response) => {
    handle(request, response).catch((cause: unknown) => {
      options.complain(cause instanceof Error ? cause.message : String(cause));
      if (response.headersSent) response.destroy();
      else refuse(response, 500, "The program broke a promise of its own.");
    });
  });
  server.headersTimeout = 10_000;
  server.requestTimeout = 60_000;
  server.maxHeadersCount = 100;
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(options.port, "127.0.0.1", () => {
      server.off("error", reject);
      resolve();
    });
  });
  const { port } = server.address() as AddressInfo;

  async function handle(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const path = (request.url ?? "/").split(/[?#]/, 1)[0] ?? "/";
    if (!hostFits(request, port)) return refuse(response, 403, "This is not the address of the program.");
    if (path === "/api" || path.startsWith("/api/")) return handleCall(request, response, path.slice("/api/".length));
    const file = options.files.get(path);
    if (file === undefined) return refuse(response, 404, "There is nothing under this address.");
    if (request.method !== "GET" && request.method !== "HEAD") {
      return refuse(response, 405, "This address can only be read.", { Allow: "GET, HEAD" });
    }
    const headers = { ...safeHeaders, "Content-Type": file.type, "Cache-Control": cacheRule(file) };
    response.writeHead(200, { ...headers, "Content-Length": file.bytes.length });
    response.end(request.method === "HEAD" ? undefined : file.bytes);
  }

  async function handleCall(request: IncomingMessage, response: ServerResponse, name: string): Promise<void> {
    if (!originFits(request)) return refuse(response, 403, "Calls from other pages are not answered.");
    if (!tokenFits(request, token)) return refuse(response, 401, "The key of this window is missing or wrong.");
    const method = name === "events" ? "GET" : "POST";
    if (request.method !== method) return refuse(response, 405, `This is asked with ${method}.`, { Allow: method });
    if (name === "events") {
      response.writeHead(200, { ...callHeaders, "Content-Type": "application/x-ndjson; charset=utf-8" });
      streams.join(response);
      return;
    }
    const body = await requestBody(request);
    if (!body.ok) {
      // What is left of an oversized body is not read: the answer goes out and the connection ends.
      if (body.status === 413) response.once("finish", () => request.destroy());
      return refuse(response, body.status, body.why, body.status === 413 ? { Connection: "close" } : {});
    }
    try {
      send(response, 200, await answer(host.handlers, name, body.data));
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      send(response, statusOf[cause.kind], cause.body());
    }
  }

  const origin = `http://127.0.0.1:${port}`;
  return {
    origin,
    token,
    address: `${origin}/#token=${token}`,
    seen: streams.seen,
    close: async () => {
      await host.stopRuns();
      streams.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
    },
  };
}

const callHeaders = { ...safeHeaders, "Cache-Control": "no-store" };

function send(response: ServerResponse, status: number, body: unknown, more: Record<string, string> = {}): void {
  const text = JSON.stringify(body);
  const headers = { ...callHeaders, "Content-Type": "application/json; charset=utf-8", ...more };
  response.writeHead(status, { ...headers, "Content-Length": Buffer.byteLength(text) });
  response.end(text);
}

function refuse(response: ServerResponse, status: number, why: string, more: Record<string, string> = {}): void {
  send(response, status, { refused: why, problems: [] }, more);
}
