import { expect, test } from "./program.ts";

test("everything of the main job can be done by keyboard alone", async ({ window }) => {
  // To the first band by the skip link, then into its drawing and along its panels.
  await window.keyboard.press("Tab");
  await expect(window.locator(":focus")).toHaveText("To what is covered");
  await window.keyboard.press("Enter");
  await expect(window.locator(":focus")).toHaveAttribute("id", "covered");
  await window
    .getByRole("button", { name: /^Panel / })
    .first()
    .focus();
  await window.keyboard.press("ArrowRight");
  await window.keyboard.press("Enter");
  await expect(window.getByRole("region", { name: "Selected" }).getByRole("button", { name: "Back" })).toBeVisible();
  await window.keyboard.press("Escape");
  await expect(window.getByRole("region", { name: "Selected" })).toContainText("Layout shown");

  // To the comparison, and to the layout below.
  await window.keyboard.press("2");
  await expect(window.locator(":focus")).toHaveText("How it could be done");
  const shown = window.getByRole("table", { name: /Layouts compared/ }).getByRole("button", { pressed: true });
  await shown.focus();
  const before = await shown.getAttribute("data-layout");
  await window.keyboard.press("ArrowDown");
  await expect(window.locator(":focus")).not.toHaveAttribute("data-layout", before ?? "");
  await expect(window.locator(":focus")).toHaveAttribute("aria-pressed", "true");

  // To the details, a rule, and back again by undo.
  await window.keyboard.press("4");
  await expect(window.locator(":focus")).toHaveAttribute("id", "details");
  await window.getByLabel("Leader").focus();
  await window.keyboard.press("Control+a");
  await window.keyboard.type("14");
  await window.keyboard.press("Enter");
  await expect(window).toHaveTitle(/^• /);
  await window.keyboard.press("Tab");
  await window.getByRole("button", { name: "Undo" }).focus();
  await window.keyboard.press("Enter");
  await expect(window).not.toHaveTitle(/^• /);

  // The list of keys opens, holds the focus and closes.
  await window.getByRole("heading", { level: 1 }).click();
  await window.keyboard.press("?");
  await expect(window.getByRole("dialog", { name: "Keys" })).toBeVisible();
  await window.keyboard.press("Escape");
  await expect(window.getByRole("dialog")).toHaveCount(0);
});

test("the focus is always to be seen", async ({ window }) => {
  for (let press = 0; press < 40; press++) {
    await window.keyboard.press("Tab");
    const seen = await window.evaluate(() => {
      const element = document.activeElement;
      if (element === null || element === document.body) return true;
      const { outlineStyle, outlineWidth } = getComputedStyle(element);
      const ring = element.querySelector(".draw-ring");
      const ringed = ring !== null && getComputedStyle(ring).display !== "none";
      return ringed || (outlineStyle !== "none" && outlineWidth !== "0px");
    });
    expect(seen, `stop ${press}`).toBe(true);
  }
});
