/** What a stage of the test command came to. `wrong` says in plain words what failed besides the tests themselves. */
export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  readonly wrong: readonly string[];
}

/** The part of vitest's JSON report that is counted. */
export interface VitestReport {
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly message?: string;
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[];
  }[];
}

/** The part of Playwright's JSON report that is counted. */
export interface PlaywrightReport {
  readonly suites?: readonly PlaywrightSuite[];
  readonly errors?: readonly { readonly message?: string }[];
}
interface PlaywrightSuite {
  readonly title: string;
  readonly suites?: readonly PlaywrightSuite[];
  readonly specs?: readonly {
    readonly title: string;
    readonly tests: readonly {
      readonly status: string;
      readonly annotations?: readonly { readonly type: string; readonly description?: string }[];
    }[];
  }[];
}

export const sum = (counts: readonly Counts[]): Counts => ({
  passed: counts.reduce((n, c) => n + c.passed, 0),
  failed: counts.reduce((n, c) => n + c.failed, 0),
  skipped: counts.reduce((n, c) => n + c.skipped, 0),
  wrong: counts.flatMap((c) => c.wrong),
});

/** A stage that could not be counted at all: one failure, with the reason. */
export const failedStage = (why: string): Counts => ({ passed: 0, failed: 1, skipped: 0, wrong: [why] });

/** One test's outcome by name. A skip counts as a failure unless its title holds the one accepted reason. */
function countOne(title: string, outcome: "passed" | "failed" | "skipped", acceptedSkip: string): Counts {
  if (outcome !== "skipped") {
    return { passed: outcome === "passed" ? 1 : 0, failed: outcome === "failed" ? 1 : 0, skipped: 0, wrong: [] };
  }
  return title.includes(acceptedSkip)
    ? { passed: 0, failed: 0, skipped: 1, wrong: [] }
    : failedStage(`"${title}" is skipped, and not for the one reason that is accepted (${acceptedSkip})`);
}

/**
 * Counts the tests of the files that `belongs` picks. A file that could not be collected has no tests to count and is one
 * failure; no test at all is one failure too, so that a stage whose files moved away is noticed.
 */
export function countVitest(report: VitestReport, acceptedSkip: string, belongs: (file: string) => boolean): Counts {
  const files = report.testResults.filter(({ name }) => belongs(name));
  const counted = files.flatMap((file) => {
    const tests = file.assertionResults.map(({ fullName, status }) =>
      countOne(fullName, status === "passed" ? "passed" : status === "failed" ? "failed" : "skipped", acceptedSkip),
    );
    const collected = file.status !== "failed" || file.assertionResults.some(({ status }) => status === "failed");
    return collected
      ? tests
      : [...tests, failedStage(`${file.name} did not run: ${file.message ?? "no reason given"}`)];
  });
  return atLeastOne(sum(counted));
}

export function countPlaywright(report: PlaywrightReport, acceptedSkip: string): Counts {
  const counted: Counts[] = (report.errors ?? []).map(({ message }) =>
    failedStage(message ?? "an error without a text"),
  );
  const visit = (suite: PlaywrightSuite, titles: readonly string[]): void => {
    for (const inner of suite.suites ?? []) visit(inner, [...titles, inner.title]);
    for (const spec of suite.specs ?? []) {
      for (const { status, annotations } of spec.tests) {
        const reasons = (annotations ?? []).map(({ description }) => description ?? "");
        const title = [...titles, spec.title, ...reasons].filter((part) => part !== "").join(" > ");
        // "flaky" failed before it passed: that is a failure here.
        const outcome = status === "expected" ? "passed" : status === "skipped" ? "skipped" : "failed";
        counted.push(countOne(title, outcome, acceptedSkip));
      }
    }
  };
  for (const suite of report.suites ?? []) visit(suite, [suite.title]);
  return atLeastOne(sum(counted));
}

const atLeastOne = (counts: Counts): Counts =>
  counts.passed + counts.failed + counts.skipped > 0 ? counts : failedStage("no test ran");

/** The last line of the test command. */
export const summaryLine = ({ passed, failed, skipped }: Counts): string =>
  `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;
