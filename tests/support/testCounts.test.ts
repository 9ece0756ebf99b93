import { describe, expect, test } from "vitest";
import { countPlaywright, countVitest, failedStage, sum, summaryLine } from "./testCounts.ts";

const accepted = "skipped: ../shared is not there";
const everyFile = () => true;
const file = (statuses: readonly [title: string, status: string][], status = "passed") => ({
  name: "tests/core/a.test.ts",
  status,
  assertionResults: statuses.map(([fullName, s]) => ({ fullName, status: s })),
});

describe("counting vitest's report", () => {
  test("passes and failures", () => {
    const report = {
      testResults: [
        file(
          [
            ["a", "passed"],
            ["b", "failed"],
          ],
          "failed",
        ),
        file([["c", "passed"]]),
      ],
    };
    expect(countVitest(report, accepted, everyFile)).toEqual({ passed: 2, failed: 1, skipped: 0, wrong: [] });
  });

  test("a skip is accepted for the one reason alone", () => {
    const report = {
      testResults: [
        file([
          [`a (${accepted})`, "skipped"],
          ["b", "skipped"],
          ["c", "todo"],
        ]),
      ],
    };
    expect(countVitest(report, accepted, everyFile)).toMatchObject({ passed: 0, failed: 2, skipped: 1 });
  });

  test("a file that could not be collected is a failure", () => {
    const report = { testResults: [file([], "failed"), file([["a", "passed"]])] };
    expect(countVitest(report, accepted, everyFile)).toMatchObject({ passed: 1, failed: 1 });
  });

  test("no test is a failure", () => {
    const report = { testResults: [file([["a", "passed"]])] };
    expect(countVitest(report, accepted, () => false)).toEqual(failedStage("no test ran"));
  });
});

describe("counting Playwright's report", () => {
  const spec = (title: string, status: string, description?: string) => ({
    title,
    tests: [{ status, annotations: description === undefined ? [] : [{ type: "skip", description }] }],
  });

  test("nested suites, flaky tests as failures, skips by their reason", () => {
    const suites = [
      {
        title: "plan.spec.ts",
        specs: [spec("a", "expected"), spec("b", "flaky")],
        suites: [
          { title: "inner", specs: [spec("c", "unexpected"), spec("d", "skipped", accepted), spec("e", "skipped")] },
        ],
      },
    ];
    expect(countPlaywright({ suites }, accepted)).toMatchObject({ passed: 1, failed: 3, skipped: 1 });
  });

  test("an error outside any test is a failure", () => {
    const suites = [{ title: "plan.spec.ts", specs: [spec("a", "expected")] }];
    expect(countPlaywright({ suites, errors: [{ message: "no server" }] }, accepted)).toEqual({
      passed: 1,
      failed: 1,
      skipped: 0,
      wrong: ["no server"],
    });
  });

  test("an empty report is a failure", () => {
    expect(countPlaywright({}, accepted)).toEqual(failedStage("no test ran"));
  });
});

test("the last line names skips only when there are any", () => {
  const some = { passed: 3, failed: 1, skipped: 0, wrong: [] };
  expect(summaryLine(some)).toBe("3 passed, 1 failed");
  expect(summaryLine(sum([some, { ...some, skipped: 2 }]))).toBe("6 passed, 2 failed, 2 skipped");
});
