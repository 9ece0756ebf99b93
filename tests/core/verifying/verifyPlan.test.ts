import { expect, test } from "vitest";
import { boothJob, boothPlan, verified } from "./support.ts";

test("the plan worked out by hand keeps every rule", () => {
  expect(verified(boothJob(), boothPlan())).toEqual([]);
});
