import { type CallName, type CallOutput, type Host, HostRefusal, hostCalls } from "../../shared/host.ts";
import { linesOf } from "./lines.ts";
import { hostListeners } from "./listeners.ts";
import { Refused, Unreachable } from "./refusal.ts";

export interface LoopbackOptions {
  /** Where the host listens: "" for the page's own origin. */
  readonly base: string;
  readonly token: string;
  /** Told whenever the stream of events stands or breaks. */
  readonly onConnection: (standing: boolean) => void;
  readonly fetch?: typeof fetch;
}

const pause = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds));

/**
 * A host over HTTP on this machine: one POST per call, and one long GET whose lines are events. When the stream breaks it
 * is asked for again, first soon and then every four seconds, until `close`.
 */
export function loopbackHost(options: LoopbackOptions): { host: Host; close: () => void } {
  const ask = options.fetch ?? ((...parts: Parameters<typeof fetch>) => fetch(...parts));
  const headers = { Authorization: `Bearer ${options.token}` };
  const { on, tell } = hostListeners();
  const ending = new AbortController();

  const call = async (name: CallName, input: unknown): Promise<unknown> => {
    let answer: Response;
    let body: unknown;
    try {
      answer = await ask(`${options.base}/api/${name}`, {
        method: "POST",
        headers: { ...headers, "Content-Type": "application/json" },
        body: JSON.stringify(input),
      });
      body = await answer.json();
    } catch (cause) {
      throw new Unreachable("The program behind this window does not answer.", { cause });
    }
    if (!answer.ok) {
      const refusal = HostRefusal.safeParse(body);
      throw refusal.success
        ? new Refused(refusal.data.refused, refusal.data.problems)
        : new Refused(`The program behind this window answered ${answer.status}.`, []);
    }
    return hostCalls[name].output.parse(body);
  };

  const listen = async (): Promise<void> => {
    let wait = 250;
    while (!ending.signal.aborted) {
      try {
        const answer = await ask(`${options.base}/api/events`, { headers, signal: ending.signal });
        if (!answer.ok || answer.body === null) throw new Unreachable(`Events answered ${answer.status}.`);
        options.onConnection(true);
        wait = 250;
        for await (const line of linesOf(answer.body)) tell(JSON.parse(line));
      } catch (cause) {
        if (ending.signal.aborted) return;
        // An event that breaks the contract is a fault to be seen; a broken connection is shown and mended by asking again.
        if (!(cause instanceof TypeError || cause instanceof Unreachable || cause instanceof DOMException)) {
          console.error(cause);
        }
      }
      options.onConnection(false);
      await pause(wait);
      wait = Math.min(4000, wait * 2);
    }
  };
  void listen();

  const calls = Object.fromEntries(
    (Object.keys(hostCalls) as CallName[]).map((name) => [name, (input: unknown) => call(name, input)]),
  ) as { [C in CallName]: (input: unknown) => Promise<CallOutput<C>> };
  return { host: { ...calls, on } as Host, close: () => ending.abort() };
}
