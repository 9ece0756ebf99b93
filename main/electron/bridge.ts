import type { IpcRenderer } from "electron";
import { type CallName, type EventName, type Host, hostCalls, hostEvents } from "../../shared/host.ts";
import { type CallAnswer, callChannel, eventChannel } from "./channels.ts";

type Listener = (body: never) => void;

/**
 * What the preload shows to the page, derived from the contract's table: one function per call and `on`. Nothing of the
 * shell's own can be reached through it. A refusal becomes an error whose message is its JSON.
 */
export function bridgeOver(ipc: Pick<IpcRenderer, "invoke" | "on">): Host {
  const listeners = new Map<EventName, Set<Listener>>();
  for (const event of Object.keys(hostEvents) as EventName[]) listeners.set(event, new Set());
  ipc.on(eventChannel, (_, message: { readonly event: EventName; readonly body: never }) => {
    for (const listener of listeners.get(message.event) ?? []) listener(message.body);
  });

  const call = async (name: CallName, input: unknown): Promise<unknown> => {
    const answer = (await ipc.invoke(callChannel, name, input)) as CallAnswer;
    if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
    return answer.output;
  };
  const calls = Object.fromEntries(
    (Object.keys(hostCalls) as CallName[]).map((name) => [name, (input: unknown) => call(name, input)]),
  );
  const on: Host["on"] = (event, listener) => {
    const listening = listeners.get(event);
    if (listening === undefined) throw new Error(`There is no event ${String(event)}`);
    listening.add(listener);
    return () => {
      listening.delete(listener);
    };
  };
  return { ...calls, on } as unknown as Host;
}
