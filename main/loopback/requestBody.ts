import type { IncomingMessage } from "node:http";

/** Most bytes of a call's body: a job of 20 MB and its plan's small print fit. */
export const largestBody = 25 * 1024 * 1024;

export type BodyRead =
  | { readonly ok: true; readonly data: unknown }
  | { readonly ok: false; readonly status: 400 | 413 | 415; readonly why: string };

/** Reads a JSON body as it comes and stops at the limit. */
export async function requestBody(request: IncomingMessage): Promise<BodyRead> {
  if (!/^application\/json\s*(;|$)/i.test(request.headers["content-type"] ?? "")) {
    return { ok: false, status: 415, why: "A call's body is JSON." };
  }
  const tooLarge: BodyRead = { ok: false, status: 413, why: "The call is over 25 MB." };
  if (Number(request.headers["content-length"] ?? 0) > largestBody) return tooLarge;
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > largestBody) return tooLarge;
    chunks.push(chunk);
  }
  try {
    return { ok: true, data: JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(chunks))) };
  } catch {
    return { ok: false, status: 400, why: "The call's body is not JSON." };
  }
}
