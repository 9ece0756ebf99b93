import { EventEmitter } from "node:events";
import type { ServerResponse } from "node:http";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { eventStreams } from "../../../main/loopback/eventStreams.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A window's stream with the lines that reached it. */
function fakeStream(): { answer: ServerResponse; lines: string[]; leave: () => void } {
  const lines: string[] = [];
  const emitter = Object.assign(new EventEmitter(), {
    write: (line: string) => lines.push(line),
    end: () => undefined,
  });
  return { answer: emitter as unknown as ServerResponse, lines, leave: () => emitter.emit("close") };
}

const step = (what: string) => ({ runId: "a", done: 0, of: 1, what, seconds: 0, plan: null, standing: null });

test("what is said before a window listens reaches the first that does, once", () => {
  const streams = eventStreams(() => undefined);
  streams.emit("planProgress", step("early"));
  const [first, second] = [fakeStream(), fakeStream()];
  streams.join(first.answer);
  streams.join(second.answer);
  streams.emit("planProgress", step("late"));
  const said = ({ lines }: { lines: string[] }) =>
    lines.filter((line) => line !== "\n").map((line) => JSON.parse(line));
  expect(said(first).map(({ body }) => body.what)).toEqual(["early", "late"]);
  expect(said(second)).toEqual([{ event: "planProgress", body: step("late") }]);
  streams.close();
});

test("an empty line comes now and then", () => {
  const streams = eventStreams(() => undefined);
  const window = fakeStream();
  streams.join(window.answer);
  const before = window.lines.length;
  vi.advanceTimersByTime(60_000);
  expect(window.lines.slice(before)).toEqual(["\n", "\n", "\n", "\n"]);
  streams.close();
});

test("a reload is no farewell; staying away is", () => {
  const gone = vi.fn();
  const streams = eventStreams(gone);
  expect(streams.seen()).toBe(false);
  const before = fakeStream();
  streams.join(before.answer);
  expect(streams.seen()).toBe(true);
  before.leave();
  vi.advanceTimersByTime(4000);
  const after = fakeStream();
  streams.join(after.answer);
  vi.advanceTimersByTime(60_000);
  expect(gone).not.toHaveBeenCalled();
  after.leave();
  vi.advanceTimersByTime(5000);
  expect(gone).toHaveBeenCalledTimes(1);
  streams.close();
});
