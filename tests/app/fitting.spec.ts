import AxeBuilder from "@axe-core/playwright";
import type { Locator, Page } from "@playwright/test";
import { expect, test } from "./program.ts";

const planning = (window: Page): Locator => window.getByRole("region", { name: "Planning" });
const selected = (window: Page): Locator => window.getByRole("region", { name: "Selected" });
const seamsOf = (window: Page, elevation: string): Locator =>
  window.getByRole("group", { name: new RegExp(`^Elevation ${elevation},`) }).getByRole("button", { name: /^Seam / });

/** The plan of the job as it stands now, and not the one before the last edit. */
async function planned(window: Page): Promise<void> {
  await expect(planning(window)).toContainText("Planned");
  await expect(planning(window)).not.toContainText("before the last edit");
}

/** The long sides of the booth need no seam when their panels run along; upright they do, so upright they are held. */
async function heldUpright(window: Page): Promise<void> {
  await window.getByRole("button", { name: "Long side", exact: true }).click();
  await selected(window).getByRole("button", { name: "Hold vertical" }).click();
  await planned(window);
  await expect(seamsOf(window, "Long side")).not.toHaveCount(0);
}

/** "Seam A/whole:1, in a break, upright at 25 in, …" → 25 */
function placeOf(sentence: string | null): number {
  const [, whole, over, under] = /(?:upright|level) at ([\d.]+)(?: (\d+)\/(\d+))?/.exec(sentence ?? "") ?? [];
  return Number(whole) + (over === undefined ? 0 : Number(over) / Number(under));
}

test("a held seam stays when the job is planned again, is marked on both sides, and is let go", async ({ window }) => {
  await heldUpright(window);
  const seam = seamsOf(window, "Long side").last();
  const place = placeOf(await seam.getAttribute("aria-label"));
  await seam.focus();
  await window.keyboard.press("Enter");
  await selected(window).getByRole("button", { name: "Hold this seam here" }).focus();
  await window.keyboard.press("Enter");
  await planned(window);
  const held = (elevation: string): Locator =>
    window
      .getByRole("group", { name: new RegExp(`^Elevation ${elevation},`) })
      .getByRole("button", { name: /^Seam .*, held here$/ });
  await expect(held("Long side")).toHaveCount(1);
  expect(placeOf(await held("Long side").getAttribute("aria-label"))).toBe(place);
  // The other long side repeats the first, 70 in long, as in a mirror.
  expect(placeOf(await held("Other long side").getAttribute("aria-label"))).toBe(70 - place);
  // A wider overlap moves seams; the held one stays.
  const overlap = window.getByLabel("Overlap", { exact: true });
  await overlap.fill("2");
  await overlap.press("Enter");
  await planned(window);
  expect(placeOf(await held("Long side").getAttribute("aria-label"))).toBe(place);
  await selected(window).getByRole("button", { name: "Release this seam" }).click();
  await planned(window);
  await expect(held("Long side")).toHaveCount(0);
});

test("no seam is planned in a stretch that is held free of them", async ({ window }) => {
  await heldUpright(window);
  const seam = seamsOf(window, "Long side").last();
  const place = placeOf(await seam.getAttribute("aria-label"));
  await seam.click({ force: true });
  await selected(window)
    .getByLabel("No upright seam from")
    .fill(String(place - 1));
  await selected(window)
    .getByLabel("to", { exact: true })
    .fill(String(place + 1));
  await selected(window).getByRole("button", { name: "No seam near here" }).click();
  await planned(window);
  const places = await seamsOf(window, "Long side").evaluateAll((seams) =>
    seams.map((one) => one.getAttribute("aria-label")),
  );
  expect(places.map(placeOf).every((at) => Math.abs(at - place) > 1)).toBe(true);
});

test("holds that leave no plan are named, and the name leads to what can be released", async ({ window }) => {
  await heldUpright(window);
  await selected(window).getByRole("button", { name: "Hold horizontal" }).click();
  await expect(planning(window)).toContainText("No plan exists");
  await window
    .locator("#problems")
    .getByRole("button", { name: /hold [12]/ })
    .first()
    .click();
  await expect(window.locator("[data-path^='elevations[0].holds']:focus")).toBeVisible();
  await selected(window).getByRole("button", { name: "Release: Panels run horizontal" }).click();
  await planned(window);
});

test("a panel says how far it may be shifted, an elevation how far its measures may be off", async ({ window }) => {
  await window
    .getByRole("button", { name: /^Panel A\// })
    .first()
    .click();
  await expect(selected(window)).toContainText("To the left");
  await window.getByRole("button", { name: "Long side", exact: true }).click();
  await selected(window).getByText("Measures to check").click();
  await expect(
    selected(window)
      .getByText(/safe to \+|no room at all|to spare/)
      .first(),
  ).toBeVisible();
  await selected(window).getByText("Order of fitting").click();
  await expect(selected(window).getByRole("button", { name: /^A\// }).first()).toBeVisible();
});

test("the datum sheet measures both sides beside each other", async ({ window }) => {
  await window.getByText("Datum sheet", { exact: true }).click();
  const table = window.getByRole("table", { name: /^Long side beside Other long side/ });
  await expect(table).toBeVisible();
  // The lettering runs from 45 to 52 in along a side of 70 in, and from 5 to 15 in up its 20 in; both sides are alike.
  await expect(table.getByRole("row", { name: /^word lettering/ })).toContainText("45451818");
});

for (const colorScheme of ["light", "dark"] as const) {
  test.describe(colorScheme, () => {
    test.use({ colorScheme });
    test(`no fault of access with holds, measures and zones of height, ${colorScheme}`, async ({ window }) => {
      const faults = async (): Promise<string[]> => {
        const parts = [".selected", ".height-zones", ".clearances", ".datum"];
        const { violations } = await parts
          .reduce((builder, part) => builder.include(part), new AxeBuilder({ page: window }))
          .analyze();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
      };
      await window.getByRole("button", { name: "Add a height zone" }).click();
      await window.getByLabel("Kind of obstacle to keep clear of").fill("handle");
      await window.getByRole("button", { name: "Add a kind" }).click();
      await heldUpright(window);
      await window.getByText("Datum sheet", { exact: true }).click();
      await seamsOf(window, "Long side").last().click({ force: true });
      expect(await faults()).toEqual([]);
      await window.getByRole("button", { name: "Other long side", exact: true }).click();
      for (const fold of ["Measures to check", "Order of fitting"]) await selected(window).getByText(fold).click();
      expect(await faults()).toEqual([]);
      await window
        .getByRole("button", { name: /^Panel A\// })
        .first()
        .click();
      expect(await faults()).toEqual([]);
    });
  });
}

test("nothing runs off the side at 1024 by 700 with all of it open", async ({ window }) => {
  await window.setViewportSize({ width: 1024, height: 700 });
  await window.getByRole("button", { name: "Add a height zone" }).click();
  await window.getByRole("button", { name: "Long side", exact: true }).click();
  const over = await window.evaluate(() => {
    const side = document.querySelector(".side");
    const page = document.documentElement;
    return [page.scrollWidth - page.clientWidth, (side?.scrollWidth ?? 0) - (side?.clientWidth ?? 0)];
  });
  expect(Math.max(...over)).toBeLessThanOrEqual(0);
});
