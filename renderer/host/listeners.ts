import type { EventBody, EventName, Host } from "../../shared/host.ts";
import { hostEvents } from "../../shared/host.ts";
import { z } from "../../shared/zod.ts";

type Listener = (body: never) => void;

const names = Object.keys(hostEvents) as [EventName, ...EventName[]];
const Envelope = z.object({ event: z.enum(names), body: z.unknown() });

/** Who listens to what a host says unasked. `tell` takes one event as it travelled and checks it first. */
export function hostListeners(): { on: Host["on"]; tell: (travelled: unknown) => void } {
  const byEvent = new Map<EventName, Set<Listener>>();
  const on: Host["on"] = (event, listener) => {
    const listening = byEvent.get(event) ?? new Set<Listener>();
    byEvent.set(event, listening);
    listening.add(listener);
    return () => listening.delete(listener);
  };
  const tell = (travelled: unknown): void => {
    const { event, body } = Envelope.parse(travelled);
    const checked = hostEvents[event].parse(body) as EventBody<EventName>;
    for (const listener of byEvent.get(event) ?? []) listener(checked as never);
  };
  return { on, tell };
}
