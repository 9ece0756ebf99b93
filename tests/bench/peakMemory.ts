import { existsSync, readdirSync, readFileSync } from "node:fs";

/** Peak resident memory in MB of each process in a tree, as far as it was seen; Linux alone tells it. */
export interface MemoryWatch {
  /** Looks once more, stops looking, and returns the sum of all peaks; null where the system does not tell. */
  readonly end: () => number | null;
}

/** Parent of a process and its peak, or null when it has ended. */
function statusOf(pid: number): { parent: number; peak: number } | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    const field = (name: string): number => Number(new RegExp(`^${name}:\\s+(\\d+)`, "m").exec(status)?.[1] ?? 0);
    return { parent: field("PPid"), peak: field("VmHWM") / 1024 };
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ENOENT" || (cause as NodeJS.ErrnoException).code === "ESRCH")
      return null;
    throw cause;
  }
}

/**
 * Watches a process and all its descendants every 20 ms. The sum of peaks is an upper bound of the peak of the sum: the
 * processes need not have been at their largest at the same moment, and pages that they share count in each.
 */
export function watchMemory(root: number): MemoryWatch {
  const peaks = new Map<number, number>();
  const look = (): void => {
    const processes = readdirSync("/proc").filter((name) => /^\d+$/.test(name));
    const known = new Map(processes.map((name) => [Number(name), statusOf(Number(name))]));
    for (const [pid, status] of known) {
      let above: number | undefined = pid;
      while (above !== undefined && above > 1 && above !== root) above = known.get(above)?.parent;
      if (above === root && status !== null) peaks.set(pid, Math.max(status.peak, peaks.get(pid) ?? 0));
    }
  };
  const there = existsSync("/proc/self/status");
  const timer = there ? setInterval(look, 20) : undefined;
  return {
    end: () => {
      clearInterval(timer);
      return there ? [...peaks.values()].reduce((sum, peak) => sum + peak, 0) : null;
    },
  };
}
