import type { IpcMain, IpcMainInvokeEvent } from "electron";
import { answer } from "../handlers/dispatch.ts";
import type { HandledHost } from "../handlers/handledHost.ts";
import { Refusal } from "../handlers/refusal.ts";
import { type CallAnswer, callChannel } from "./channels.ts";
import { isPage } from "./page.ts";

/** Whether a message comes from the top frame of a window that shows the program's own page. */
function fromOurPage({ sender, senderFrame }: IpcMainInvokeEvent): boolean {
  return senderFrame !== null && senderFrame === sender.mainFrame && isPage(senderFrame.url);
}

/**
 * Answers the one call channel for all windows.
 *
 * @param hostOf the host of a window by the id of its web contents; undefined when there is none
 * @param complain hears of broken promises
 */
export function answerCalls(
  ipc: Pick<IpcMain, "handle">,
  hostOf: (id: number) => HandledHost | undefined,
  complain: (text: string) => void,
): void {
  ipc.handle(callChannel, async (event, name: unknown, input: unknown): Promise<CallAnswer> => {
    try {
      const host = hostOf(event.sender.id);
      if (host === undefined || !fromOurPage(event)) throw new Refusal("unknown", "This page is not answered.");
      if (typeof name !== "string") throw new Refusal("badInput", "A call is named by a text.");
      return { ok: true, output: await answer(host.handlers, name, input) };
    } catch (cause) {
      if (cause instanceof Refusal) return { ok: false, refusal: cause.body() };
      complain(cause instanceof Error ? cause.message : String(cause));
      return { ok: false, refusal: new Refusal("notNow", "The program broke a promise of its own.").body() };
    }
  });
}
