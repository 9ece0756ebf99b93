import { act, cleanup, render } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, vi } from "vitest";
import { draftsIn } from "../../../renderer/state/drafts.ts";
import { createSheet, type Surroundings } from "../../../renderer/state/sheet.ts";
import { firstView } from "../../../renderer/state/sheetState.ts";
import { App } from "../../../renderer/views/App.tsx";
import type { JobJson, OpenedJob } from "../../../shared/host.ts";
import { opened, type StandIn, standInHost } from "./standInHost.ts";

// The stand-in page has no layout, so nothing would ever come near its screen: without an observer all is drawn at once.
beforeEach(() => {
  vi.stubGlobal("IntersectionObserver", undefined);
});

afterEach(() => {
  vi.unstubAllGlobals();
  cleanup();
  window.localStorage.clear();
});

let names = 0;

export const surroundings = (host: StandIn["host"], more: Partial<Surroundings> = {}): Surroundings => ({
  host,
  drafts: draftsIn(window.localStorage),
  view: firstView,
  keepView: () => undefined,
  now: () => 1_700_000_000_000,
  newId: () => `id-${++names}`,
  keepFile: () => undefined,
  ...more,
});

/** The whole window over a stand-in host, with the first job opened and its run under way. */
export async function showSheet(
  job: JobJson | OpenedJob,
  host?: Partial<StandIn["host"]>,
  around?: Partial<Surroundings>,
) {
  const first = "token" in job && "job" in job ? (job as OpenedJob) : opened(job as JobJson);
  const standIn = standInHost(first, host);
  const sheet = createSheet(surroundings(standIn.host, around));
  const user = userEvent.setup();
  render(<App sheet={sheet} />);
  await act(async () => {
    await sheet.commands.start();
  });
  return { sheet, standIn, user };
}
