import { request as httpRequest, type IncomingHttpHeaders } from "node:http";
import { connect } from "node:net";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { largestBody } from "../../../main/loopback/requestBody.ts";
import { HostRefusal } from "../../../shared/host.ts";
import { httpHost } from "../../contract/hosts.ts";

type Tested = Awaited<ReturnType<typeof httpHost>>;
let tested: Tested;
let port: number;
beforeAll(async () => {
  tested = await httpHost({ start: () => ({ stop: () => undefined, ended: new Promise(() => undefined) }) });
  port = Number(new URL(tested.origin).port);
});
afterAll(async () => {
  await tested.close();
  expect(tested.complaints).toEqual([]);
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

/** A request as any program could make it, with nothing put right on the way. */
function ask(method: string, path: string, headers: Record<string, string> = {}, body = ""): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = httpRequest({ host: "127.0.0.1", port, method, path, headers }, (answer) => {
      let text = "";
      answer.on("data", (data) => {
        text += data;
      });
      answer.on("end", () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text }));
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

const json = { "Content-Type": "application/json" };
const allowed = (): Record<string, string> => ({ ...json, Authorization: `Bearer ${tested.token}` });
const refusedWith = ({ status, text }: Answer): number => {
  HostRefusal.parse(JSON.parse(text));
  return status;
};

describe("who is answered", () => {
  test("a call with the token, from the page or from no page", async () => {
    expect((await ask("POST", "/api/hostInfo", allowed(), "{}")).status).toBe(200);
    expect((await ask("POST", "/api/hostInfo", { ...allowed(), Origin: tested.origin }, "{}")).status).toBe(200);
    const local = `localhost:${port}`;
    const byName = { ...allowed(), Host: local, Origin: `http://${local}` };
    expect((await ask("POST", "/api/hostInfo", byName, "{}")).status).toBe(200);
  });

  test.each([
    { what: "no token", headers: {} },
    { what: "an empty token", headers: { Authorization: "Bearer " } },
    { what: "a wrong token", headers: { Authorization: `Bearer ${"A".repeat(43)}` } },
    { what: "another scheme", headers: { Authorization: "Basic QTpC" } },
  ])("not $what", async ({ headers }) => {
    expect(refusedWith(await ask("POST", "/api/hostInfo", { ...json, ...headers }, "{}"))).toBe(401);
    expect(refusedWith(await ask("GET", "/api/events", headers))).toBe(401);
  });

  test("not the token in the address", async () => {
    expect(refusedWith(await ask("POST", `/api/hostInfo?token=${tested.token}`, json, "{}"))).toBe(401);
  });

  test.each(["evil.example", "127.0.0.1", "127.0.0.1:1", "localhost", "[::1]:80", "127.0.0.1.evil.example"])(
    "not under the name %s",
    async (host) => {
      expect(refusedWith(await ask("POST", "/api/hostInfo", { ...allowed(), Host: host }, "{}"))).toBe(403);
      expect(refusedWith(await ask("GET", "/", { Host: host }))).toBe(403);
    },
  );

  test.each(["http://evil.example", "null", "https://127.0.0.1", "file://"])("not from the page %s", async (origin) => {
    expect(refusedWith(await ask("POST", "/api/hostInfo", { ...allowed(), Origin: origin }, "{}"))).toBe(403);
    expect(refusedWith(await ask("GET", "/api/events", { ...allowed(), Origin: origin }))).toBe(403);
  });

  test("not what a browser says comes from elsewhere", async () => {
    const headers = { ...allowed(), "Sec-Fetch-Site": "cross-site" };
    expect(refusedWith(await ask("POST", "/api/hostInfo", headers, "{}"))).toBe(403);
  });

  test("no other page is told that it may ask", async () => {
    const answer = await ask("OPTIONS", "/api/hostInfo", { Origin: "http://evil.example" });
    expect(answer.status).toBe(403);
    expect(Object.keys(answer.headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
  });
});

describe("what is answered", () => {
  test("calls are posted, events are read", async () => {
    const got = await ask("GET", "/api/hostInfo", allowed());
    expect(refusedWith(got)).toBe(405);
    expect(got.headers.allow).toBe("POST");
    expect(refusedWith(await ask("POST", "/api/events", allowed(), "{}"))).toBe(405);
  });

  test.each(["/api/", "/api/none", "/api/__proto__", "/api/constructor", "/api/hostInfo/", "/api/..%2fhostInfo"])(
    "no call %s",
    async (path) => {
      expect(refusedWith(await ask("POST", path, allowed(), "{}"))).toBe(404);
    },
  );

  test("only JSON", async () => {
    expect(refusedWith(await ask("POST", "/api/hostInfo", allowed(), "{"))).toBe(400);
    expect(refusedWith(await ask("POST", "/api/hostInfo", allowed(), ""))).toBe(400);
    const form = { ...allowed(), "Content-Type": "text/plain" };
    expect(refusedWith(await ask("POST", "/api/hostInfo", form, "{}"))).toBe(415);
  });

  test("nothing over the limit, announced or not", async () => {
    const announced = { ...allowed(), "Content-Length": `${largestBody + 1}` };
    const answer = await new Promise<string>((resolve, reject) => {
      const socket = connect(port, "127.0.0.1", () => {
        const lines = Object.entries({ ...announced, Host: `127.0.0.1:${port}` }).map(([k, v]) => `${k}: ${v}\r\n`);
        socket.write(`POST /api/hostInfo HTTP/1.1\r\n${lines.join("")}\r\n`);
      });
      let text = "";
      socket.on("data", (data) => {
        text += data;
      });
      socket.on("error", reject);
      socket.on("close", () => resolve(text));
    });
    expect(answer).toMatch(/^HTTP\/1\.1 413 /);

    const body = new ReadableStream<Uint8Array>({
      pull: (() => {
        let sent = 0;
        return (stream: ReadableStreamDefaultController<Uint8Array>) => {
          sent += 1 << 20;
          stream.enqueue(new Uint8Array(1 << 20).fill(32));
          if (sent > largestBody) stream.close();
        };
      })(),
    });
    const options = { method: "POST", headers: allowed(), body, duplex: "half" };
    // The server may hang up before all of it is sent: both count as turned away.
    const status = await fetch(`${tested.origin}/api/hostInfo`, options).then(
      (response) => response.status,
      () => 413,
    );
    expect(status).toBe(413);
    expect((await ask("POST", "/api/hostInfo", allowed(), "{}")).status).toBe(200);
  });

  test("a refused call says why and where", async () => {
    const { status, text } = await ask("POST", "/api/readJob", allowed(), '{"job": 5}');
    expect(status).toBe(400);
    expect(HostRefusal.parse(JSON.parse(text)).problems.map(({ path }) => path)).toEqual(["job"]);
  });
});

describe("the page", () => {
  test("comes with a strict policy and is never kept", async () => {
    const { status, headers, text } = await ask("GET", "/");
    expect(status).toBe(200);
    expect(text).toContain("<title>page</title>");
    expect(headers).toMatchObject({
      "content-type": "text/html; charset=utf-8",
      "cache-control": "no-store",
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-opener-policy": "same-origin",
      "cross-origin-resource-policy": "same-origin",
    });
    const policy = headers["content-security-policy"] as string;
    expect(policy.split("; ").sort()).toEqual(
      [
        "base-uri 'none'",
        "connect-src 'self'",
        "default-src 'none'",
        "font-src 'self'",
        "form-action 'none'",
        "frame-ancestors 'none'",
        "img-src 'self' data:",
        "script-src 'self'",
        "style-src 'self'",
      ].sort(),
    );
    expect(text).not.toContain(tested.token);
  });

  test("files named after their content are kept", async () => {
    const { headers } = await ask("GET", "/assets/page-1a2b.js");
    expect(headers["content-type"]).toBe("text/javascript; charset=utf-8");
    expect(headers["cache-control"]).toBe("private, max-age=31536000, immutable");
  });

  test.each([
    "/../package.json",
    "/assets/../../package.json",
    "/..%2f..%2fpackage.json",
    "/%2e%2e/package.json",
    "/assets/..\\..\\package.json",
    "//etc/passwd",
    "/assets/",
    "/__proto__",
  ])("no file %s", async (path) => {
    expect(refusedWith(await ask("GET", path))).toBe(404);
  });

  test("nothing is written to it", async () => {
    expect(refusedWith(await ask("POST", "/", {}, "x"))).toBe(405);
    expect((await ask("HEAD", "/")).text).toBe("");
  });
});

test("it listens on this machine's own address alone", async () => {
  const other = await new Promise<boolean>((resolve) => {
    const socket = connect(port, "::1");
    socket.on("connect", () => resolve(true));
    socket.on("error", () => resolve(false));
  });
  expect(other).toBe(false);
});
