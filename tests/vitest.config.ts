import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

/**
 * All tests but the ones in a real browser, which `tests/app/playwright.config.ts` runs. Component tests get a DOM of
 * their own; everything else runs in plain Node, so that a core that touches the DOM fails here too.
 */
const root = new URL("..", import.meta.url).pathname;

export default defineConfig({
  root,
  plugins: [react()],
  cacheDir: "tests/.cache/vite",
  test: {
    // Two workers suit the smallest machine that the suite has to run on; more cores make more.
    pool: "threads",
    testTimeout: 120_000,
    hookTimeout: 60_000,
    restoreMocks: true,
    passWithNoTests: false,
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          environment: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/app/**", "tests/component/**"],
        },
      },
      {
        extends: true,
        test: {
          name: "component",
          environment: "happy-dom",
          include: ["tests/component/**/*.test.{ts,tsx}"],
        },
      },
    ],
  },
});
