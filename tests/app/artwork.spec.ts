import { writeFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";
import { expect, test } from "./program.ts";

/** The front of a ticket kiosk: two panels, whose one seam may lie anywhere over 17 in for the same film. */
const kiosk = {
  format: "lapwright-job",
  version: 1,
  name: "Ticket kiosk",
  units: "in",
  elevations: [
    {
      id: "front",
      name: "Kiosk front",
      film: "white",
      outline: [
        [0, 0],
        [84, 0],
        [84, 44],
        [0, 44],
      ],
      sections: [{ id: "whole", box: [0, 0, 84, 44], direction: "vertical" }],
    },
  ],
  films: [{ id: "white", name: "White", rollWidths: [54], edgeMargin: 0.5, rollLength: 1800, pricePerArea: 0.01 }],
  rules: {
    bleed: 2,
    overlap: 1,
    colourEdgeOverlap: 0.25,
    trimOverlap: 4,
    cutGap: 1,
    leader: 12,
    trailer: 6,
    seamPricePerLength: 0.2,
  },
};

/** A PNG of 10 pixels an inch: green, with rows of invented lettering from `from` to `to` inches. */
async function lettered(window: Page, from: number, to: number): Promise<Buffer> {
  const bytes = await window.evaluate(
    async ([left, right]) => {
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [840, 440];
      const context = canvas.getContext("2d") as CanvasRenderingContext2D;
      context.fillStyle = "#2f7d5b";
      context.fillRect(0, 0, 840, 440);
      context.fillStyle = "#fff8e7";
      for (let y = 0; y < 440; y += 40) {
        for (let x = left * 10; x < right * 10; x += 20) {
          context.fillRect(x, y, 12, 6);
          context.fillRect(x, y, 5, 30);
          context.fillRect(x, y + 24, 12, 6);
        }
      }
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
      return [...new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer(0))];
    },
    [from, to] as const,
  );
  return Buffer.from(bytes);
}

async function seamPlace(window: Page): Promise<number> {
  const seams = window.getByRole("button", { name: /^Seam .*whole:1,/ });
  await expect(seams).toHaveCount(1);
  const [, whole = "", top = "0", bottom = "1"] =
    /upright at (\d+)(?: (\d+)\/(\d+))? in/.exec((await seams.getAttribute("aria-label")) ?? "") ?? [];
  return Number(whole) + Number(top) / Number(bottom);
}

for (const colorScheme of ["light", "dark"] as const) {
  test.describe(colorScheme, () => {
    test.use({ colorScheme });

    test(`a picture is read and the seam leaves its lettering, ${colorScheme}`, async ({ window, program }) => {
      writeFileSync(join(program.folder, "kiosk.job.json"), JSON.stringify(kiosk));
      await window.keyboard.press("Control+o");
      await window.getByRole("dialog", { name: "Open a job" }).getByRole("button", { name: "kiosk.job.json" }).click();
      const planning = window.getByRole("region", { name: "Planning" });
      await expect(window.getByRole("heading", { level: 1 })).toHaveText("Ticket kiosk");
      await expect(planning).toContainText("Planned");
      const before = await seamPlace(window);

      await window.getByRole("button", { name: "Kiosk front", exact: true }).click();
      await window.locator("summary", { hasText: "Artwork" }).click();
      const input = window.getByLabel(/^Picture of the artwork on Kiosk front/);
      await input.setInputFiles({ name: "words.png", mimeType: "image/png", buffer: Buffer.from("no picture at all") });
      await expect(window.getByText("words.png is no PNG or JPEG picture.", { exact: false })).toBeVisible();
      // Over 10 in round the seam, which leaves 7 in of flat ground within its reach.
      const buffer = await lettered(window, before - 5, before + 5);
      const cut = buffer.subarray(0, 200);
      await input.setInputFiles({ name: "cut-off.png", mimeType: "image/png", buffer: cut });
      await expect(window.getByText("cut-off.png can't be decoded", { exact: false })).toBeVisible();
      await input.setInputFiles({ name: "lettering.png", mimeType: "image/png", buffer });
      await expect(window.getByText("840 × 440 px")).toBeVisible();
      await expect(window.getByText("10 pixels an inch. Its sides are as the elevation's.")).toBeVisible();
      await window.getByRole("button", { name: "Read where seams would be seen" }).click();
      await expect(window.getByText("Map read from lettering.png: 84 by 44 cells of 1 in.")).toBeVisible();
      await expect(planning).toContainText("Planned");
      await expect(planning).not.toContainText("before the last edit");

      await expect.poll(async () => Math.abs((await seamPlace(window)) - before)).toBeGreaterThan(5);
      await expect(window.getByRole("list", { name: "What the heat on Kiosk front means" })).toBeVisible();
      await expect(window.locator(".draw-trims .draw-trim")).toHaveCount(1);

      await window.getByLabel("The picture lies").selectOption("places");
      const faults = async (within: string): Promise<string[]> => {
        const { violations } = await new AxeBuilder({ page: window }).include(within).analyze();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
      };
      expect(await faults(".side")).toEqual([]);
      expect(await faults(".bands")).toEqual([]);

      await window.getByRole("button", { name: "Undo" }).click();
      await expect(window.getByText("No map yet", { exact: false })).toBeVisible();
      await expect.poll(() => seamPlace(window)).toBe(before);
    });
  });
}
