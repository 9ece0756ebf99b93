import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./program.ts";

for (const colorScheme of ["light", "dark"] as const) {
  test.describe(colorScheme, () => {
    test.use({ colorScheme });

    test(`no fault of access in the sheet, ${colorScheme}`, async ({ window }) => {
      const { violations } = await new AxeBuilder({ page: window }).analyze();
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`),
      ).toEqual([]);
    });

    test(`no fault of access with a selection, and in the dialogs, ${colorScheme}`, async ({ window }) => {
      const faults = async (within: string): Promise<string[]> => {
        const { violations } = await new AxeBuilder({ page: window }).include(within).analyze();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
      };
      await window
        .getByRole("button", { name: /^Panel / })
        .first()
        .click();
      expect(await faults(".bands")).toEqual([]);
      await window.getByRole("button", { name: "Long side", exact: true }).click();
      expect(await faults(".side")).toEqual([]);
      for (const keys of ["?", "Control+e", "Control+Shift+s", "Control+o"]) {
        await window.getByRole("heading", { level: 1 }).click();
        await window.keyboard.press(keys);
        await expect(window.getByRole("dialog")).toBeVisible();
        expect(await faults("dialog")).toEqual([]);
        await window.keyboard.press("Escape");
        await expect(window.getByRole("dialog")).toHaveCount(0);
      }
    });
  });
}

test("targets are at least 24 pixels in both directions", async ({ window }) => {
  const small = await window.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("button, select, input:not([type=checkbox]), summary")]
      .filter((element) => element.getClientRects().length > 0)
      .map((element) => ({ says: element.textContent ?? "", box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.width < 24 || box.height < 24))
      .map(({ says, box }) => `${says} ${box.width} × ${box.height}`),
  );
  expect(small).toEqual([]);
});

for (const [width, height] of [
  [1024, 700],
  [640, 400], // 1280 x 800 at 200 %
  [3840, 2160],
] as const) {
  test(`nothing runs off the side at ${width} by ${height}`, async ({ window }) => {
    await window.setViewportSize({ width, height });
    const over = await window.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(over).toBeLessThanOrEqual(0);
  });
}
