import { readdirSync, readFileSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";

export interface ServedFile {
  readonly type: string;
  readonly bytes: Buffer;
  /** Built under a name that changes with its content, so it may be kept by a browser. */
  readonly named: boolean;
}

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".ttf": "font/ttf",
  ".json": "application/json",
};

/**
 * The built renderer as a fixed table from address path to bytes, read once. What is not in the table can't be asked for,
 * so no path of a request ever reaches the disk. "/" is index.html; files of unknown types are left out.
 */
export function rendererFiles(folder: string): ReadonlyMap<string, ServedFile> {
  const table = new Map<string, ServedFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = types[extname(entry.name).toLowerCase()];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    const address = `/${relative(folder, path).split(sep).join("/")}`;
    table.set(address, { type, bytes: readFileSync(path), named: address.startsWith("/assets/") });
  }
  const page = table.get("/index.html");
  if (page === undefined) throw new Error(`No index.html in ${folder}; the renderer has not been built`);
  table.set("/", page);
  return table;
}

/** What a page of the program may load: its own files, pictures in its own text, and nothing from elsewhere. */
export const contentPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Headers of every answer, whichever host gives it. */
export const safeHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy": contentPolicy,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
  "X-Frame-Options": "DENY",
};

/** How long a file may be kept: one with its content in its name for good, the page itself never. */
export const cacheRule = (file: ServedFile): string =>
  file.named ? "private, max-age=31536000, immutable" : "no-store";
