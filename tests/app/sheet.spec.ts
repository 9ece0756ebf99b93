import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./program.ts";

test("plans the job in front of the user and takes its key out of the address", async ({ window }) => {
  expect(new URL(window.url()).hash).toBe("");
  await expect(window).toHaveTitle("puppet-booth.job.json – Lapwright");
  const table = window.getByRole("table", { name: /Layouts compared/ });
  await expect(table.getByRole("row")).not.toHaveCount(1);
  await expect(window.getByRole("group", { name: /^Elevation Long side/ })).toBeVisible();
  await expect(window.getByRole("group", { name: /^Load 1,/ })).toBeVisible();
});

test("another layout is shown in all bands, from the table and from the drawing", async ({ window }) => {
  const shown = window.getByRole("region", { name: "How it could be done" }).locator(".band-summary");
  const first = await shown.textContent();
  const rows = window.getByRole("table", { name: /Layouts compared/ }).getByRole("row");
  await rows.last().click();
  await expect(shown).not.toHaveText(first ?? "");
  await expect(window.getByRole("region", { name: "Selected" })).toContainText("Beside the layout of least cost");
  await window.getByRole("radio").first().focus();
  await window.keyboard.press("Home");
  await window.keyboard.press("Enter");
  await expect(window.getByRole("radio", { checked: true })).toHaveCount(1);
});

test("a panel is found on the film and in the cut list, and a piece on its elevation", async ({ window }) => {
  const panel = window.getByRole("button", { name: /^Panel / }).first();
  const id = /^Panel ([^,]+),/.exec((await panel.getAttribute("aria-label")) ?? "")?.[1] ?? "";
  await panel.click();
  await expect(panel).toHaveAttribute("aria-pressed", "true");
  const side = window.getByRole("region", { name: "Selected" });
  await expect(side).toContainText(id);
  const piece = window.locator(`[data-id="piece:${id}#1"]`);
  await expect(piece).toHaveClass(/is-selected/);
  await expect(window.locator(`[data-row="piece:${id}#1"]`)).toHaveClass(/row-shown/);
  await side.getByRole("button", { name: new RegExp(`Show copy 1 of ${id}`) }).click();
  await expect(piece).toBeInViewport();
  await expect(side).toContainText("Piece on the film");
  await side.getByRole("button", { name: "On the elevation" }).click();
  await expect(panel).toBeInViewport();
});

test("a rule typed in another unit plans the job again; undo plans it as before", async ({ window }) => {
  const bleed = window.getByLabel("Bleed");
  const cost = window.getByRole("region", { name: "Planning" });
  await bleed.fill("101.6 mm");
  await bleed.press("Enter");
  await expect(bleed).toHaveValue("4");
  await expect(window).toHaveTitle("• puppet-booth.job.json – Lapwright");
  await expect(cost).toContainText("Planned");
  await expect(cost).not.toContainText("before the last edit");
  await window.getByRole("heading", { level: 1 }).click();
  await window.keyboard.press("Control+z");
  await expect(bleed).toHaveValue("1");
  await expect(window).toHaveTitle("puppet-booth.job.json – Lapwright");
  await expect(cost).not.toContainText("before the last edit");
});

test("a rule that can't be: the problem leads to its field, mending it plans again", async ({ window }) => {
  const overlap = window.getByLabel("Overlap", { exact: true });
  await overlap.fill("9");
  await overlap.press("Enter");
  const problems = window.getByRole("listitem").getByRole("button", { name: /Rules/ });
  await expect(problems.first()).toBeVisible();
  await problems.first().click();
  await expect(window.locator(":focus")).toHaveAttribute("data-path", /^rules\./);
  await window.getByRole("button", { name: "Undo" }).click();
  await expect(window.getByRole("region", { name: "Planning" })).toContainText("Planned");
});

test("a broken file from disk is opened, every problem is listed and the text is not written over", async ({
  window,
  program,
}) => {
  const broken = {
    ...JSON.parse(readFileSync(join(program.folder, "puppet-booth.job.json"), "utf8")),
    units: "furlong",
  };
  const path = join(program.folder, "broken.job.json");
  writeFileSync(path, JSON.stringify(broken));
  await window.keyboard.press("Control+o");
  await window.getByRole("dialog", { name: "Open a job" }).getByRole("button", { name: "broken.job.json" }).click();
  await expect(window.getByRole("region", { name: "Planning" })).toContainText("can't be read as it stands");
  await expect(window.getByRole("listitem").getByRole("button", { name: /Units/ })).toBeVisible();
  expect(JSON.parse(readFileSync(path, "utf8"))).toMatchObject({ units: "furlong" });
});

test("a broken job begins with what keeps it from being read, however far the column was scrolled", async ({
  window,
  program,
}) => {
  const job = JSON.parse(readFileSync(join(program.folder, "puppet-booth.job.json"), "utf8"));
  writeFileSync(join(program.folder, "unread.job.json"), JSON.stringify({ ...job, units: "furlong" }));
  const side = window.getByRole("complementary", { name: "Details" });
  await window.getByLabel("Currency").scrollIntoViewIfNeeded();
  expect(await side.evaluate((column) => column.scrollTop)).toBeGreaterThan(0);
  await window.keyboard.press("Control+o");
  await window.getByRole("dialog", { name: "Open a job" }).getByRole("button", { name: "unread.job.json" }).click();
  await expect(side.getByText("One thing keeps this job from being read")).toBeInViewport();
  await expect(window.getByRole("region", { name: "What is covered" })).toContainText("can't be drawn until");
});

test("a dialog longer than a small window keeps its way out in sight", async ({ window }) => {
  await window.setViewportSize({ width: 1024, height: 500 });
  await window.getByRole("heading", { level: 1 }).click();
  await window.keyboard.press("?");
  const dialog = window.getByRole("dialog", { name: "Keys" });
  await expect(dialog.getByRole("checkbox")).toBeFocused();
  await expect(dialog.getByRole("button", { name: "Close" })).toBeInViewport({ ratio: 1 });
  await dialog.getByRole("button", { name: "Close" }).click();
  await expect(dialog).toHaveCount(0);
});

test("save as under a name that is taken asks, then writes what was edited", async ({ window, program }) => {
  writeFileSync(join(program.folder, "taken.job.json"), "{}");
  const count = window.getByLabel("Trailer");
  await count.fill("7");
  await count.press("Enter");
  await window.keyboard.press("Control+Shift+s");
  const dialog = window.getByRole("dialog", { name: "Save as" });
  await dialog.getByLabel("File name").fill("taken.job.json");
  await dialog.getByRole("button", { name: "Save" }).click();
  await dialog.getByRole("button", { name: /^Replace taken/ }).click();
  await expect(dialog).toHaveCount(0);
  await expect(window).toHaveTitle("taken.job.json – Lapwright");
  expect(JSON.parse(readFileSync(join(program.folder, "taken.job.json"), "utf8"))).toMatchObject({
    rules: { trailer: 7 },
  });
});

test("plan, cut list, datum sheet and roll map are handed to the browser", async ({ window }) => {
  const names: string[] = [];
  window.on("download", (download) => names.push(download.suggestedFilename()));
  await window.keyboard.press("Control+e");
  await window.getByRole("dialog", { name: "Export" }).getByRole("button", { name: "Export" }).click();
  await expect.poll(() => names.length).toBe(4);
  expect(names.map((name) => name.replace(/^.*\./, "")).sort()).toEqual(["csv", "csv", "json", "svg"]);
});

test("a file dropped on the window is opened", async ({ window, program }) => {
  const text = readFileSync(join(program.folder, "puppet-booth.job.json"), "utf8").replace(
    "Puppet booth",
    "Dropped booth",
  );
  const data = await window.evaluateHandle((dropped) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([dropped], "dropped.job.json", { type: "application/json" }));
    return transfer;
  }, text);
  await window.locator(".window").dispatchEvent("drop", { dataTransfer: data });
  await expect(window.getByRole("heading", { level: 1 })).toHaveText("Dropped booth");
  await expect(window.getByRole("banner")).toContainText("not on disk");
});

test("unsaved work is offered again after the window went away", async ({ window, program }) => {
  const leader = window.getByLabel("Leader");
  await leader.fill("11");
  await leader.press("Enter");
  await expect(window).toHaveTitle(/^• /);
  await window.goto("about:blank");
  await window.goto(program.address);
  await expect(window.getByText("Unsaved work on puppet-booth.job.json")).toBeVisible();
  await window.getByRole("button", { name: "Go on with it" }).click();
  await expect(window.getByLabel("Leader")).toHaveValue("11");
});

test("without its key the page says what to do", async ({ page, program }) => {
  await page.goto(new URL(program.address).origin);
  await expect(page.getByText("This page was opened without its key")).toBeVisible();
});

test("the course of the search stands in the strip, in full below the layouts, and as a table", async ({ window }) => {
  const strip = window.getByRole("region", { name: "Planning" });
  await expect(strip).toContainText("Planned");
  const best = /best (\S?[\d,]+\.\d\d)/.exec((await strip.textContent()) ?? "")?.[1] ?? "none";
  const small = strip.getByRole("img");
  await expect(small).toHaveAccessibleName(/^Cost of the best layout: .* after .* s; bound /);
  const says = (await small.getAttribute("aria-label")) ?? "";
  expect(says).toContain(`${best} after`);
  const band = window.getByRole("region", { name: "How it could be done" });
  await expect(band.getByRole("img", { name: says })).toBeVisible();
  // The drawing keeps its room from run to run, so that nothing around it moves.
  const before = await small.boundingBox();
  await strip.getByRole("button", { name: "Plan again" }).click();
  await expect(strip).toContainText("Planned");
  expect(await small.boundingBox()).toEqual(before);
  await band.getByText("As a table").click();
  const table = band.getByRole("table", { name: "Cost and bound over the time of the search" });
  expect(await table.getByRole("row").count()).toBeGreaterThan(1);
});
