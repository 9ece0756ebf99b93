import { formatMoney } from "../../core/index.ts";
import { gapFigure, type Standing } from "../../shared/standing.ts";
import type { RunProgress } from "../workers/planRunner.ts";
import type { Terminal } from "./reporting.ts";

/** An improvement as a line: when, what it costs, and what could still be saved. */
export function standingLine({ seconds, cost, bound, gapPercent, proven, by }: Standing, currency: string): string {
  const left = proven
    ? `proven least cost (${by})`
    : `at most ${gapFigure(gapPercent)} % could be saved (bound ${formatMoney(bound, currency)}: ${by})`;
  return `${seconds.toFixed(1)} s: ${formatMoney(cost, currency)}, ${left}`;
}

export interface PlanProgress {
  readonly show: (progress: RunProgress) => void;
  /** Takes away the line of steps; the lines of improvements stay. */
  readonly clear: () => void;
}

/** On a terminal: a line for each improvement, and below them one line of steps that is written over. Elsewhere nothing. */
export function planProgress(terminal: Terminal, currency: string): PlanProgress {
  if (!terminal.watched) return { show: () => undefined, clear: () => undefined };
  const startOfLine = "\r\x1b[2K";
  let shown = false;
  return {
    show: ({ done, of, what, seconds, standing }) => {
      if (standing !== null) terminal.err(`${startOfLine}${standingLine(standing, currency)}\n`);
      if (what === "") return;
      terminal.err(`${startOfLine}${seconds.toFixed(1)} s, step ${done} of ${of}: ${what}`);
      shown = true;
    },
    clear: () => {
      if (shown) terminal.err(startOfLine);
    },
  };
}
