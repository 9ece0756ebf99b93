import type { ServerResponse } from "node:http";
import type { EventBody, EventName } from "../../shared/host.ts";

/** An empty line now and then keeps a stream from being taken for dead. */
const heartbeat = 15_000;
/** How long a window may be away, for a reload or a short sleep, before it counts as gone; milliseconds. */
const awayLimit = 5000;
/** Most events kept while no window listens; the oldest go first. */
const mostKept = 200;

export interface EventStreams {
  readonly emit: <E extends EventName>(event: E, body: EventBody<E>) => void;
  /** Turns an answer into a stream of events, one JSON object a line. */
  readonly join: (answer: ServerResponse) => void;
  /** Whether any window has ever listened. */
  readonly seen: () => boolean;
  readonly close: () => void;
}

/**
 * The streams that carry events to windows. What is said while none listens is kept for the next one, so an outcome that
 * falls into a reload is not lost.
 *
 * @param gone called once the last window has been away for some seconds
 */
export function eventStreams(gone: () => void): EventStreams {
  const streams = new Set<ServerResponse>();
  let kept: string[] = [];
  let seen = false;
  let away: NodeJS.Timeout | null = null;
  const beat = setInterval(() => {
    for (const stream of streams) stream.write("\n");
  }, heartbeat);
  beat.unref();

  const join = (answer: ServerResponse): void => {
    if (away !== null) clearTimeout(away);
    away = null;
    seen = true;
    streams.add(answer);
    answer.write("\n"); // sends the head at once, so that the window knows it is heard
    for (const line of kept) answer.write(line);
    kept = [];
    answer.on("close", () => {
      streams.delete(answer);
      if (streams.size === 0 && away === null) away = setTimeout(gone, awayLimit).unref();
    });
  };
  const emit: EventStreams["emit"] = (event, body) => {
    const line = `${JSON.stringify({ event, body })}\n`;
    if (streams.size === 0) kept = [...kept, line].slice(-mostKept);
    else for (const stream of streams) stream.write(line);
  };
  const close = (): void => {
    clearInterval(beat);
    if (away !== null) clearTimeout(away);
    for (const stream of streams) stream.end();
  };
  return { emit, join, seen: () => seen, close };
}
