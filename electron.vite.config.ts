import react from "@vitejs/plugin-react";
import { defineConfig } from "electron-vite";

/**
 * The three bundles of the program. The folders do not stand where the tool looks for them, so each entry is named:
 * hosts and the planning worker as modules, the preload as CommonJS (a sandboxed preload can't be a module), the renderer
 * as a page of its own. Packages of `dependencies` stay outside the host bundles; the preload takes everything along.
 */
export default defineConfig({
  main: {
    build: {
      outDir: "out/main",
      rollupOptions: {
        input: {
          electron: "main/electron/electron.ts",
          loopback: "main/loopback/loopback.ts",
          planWorker: "main/workers/planWorker.ts",
        },
        output: { format: "es", entryFileNames: "[name].js", chunkFileNames: "chunks/[name]-[hash].js" },
      },
    },
  },
  preload: {
    build: {
      outDir: "out/preload",
      externalizeDeps: false,
      rollupOptions: {
        input: { preload: "main/electron/preload.ts" },
        output: { format: "cjs", entryFileNames: "[name].cjs" },
      },
    },
  },
  renderer: {
    root: "renderer",
    plugins: [react()],
    build: {
      outDir: "out/renderer",
      minify: true,
      // The content policy lets fonts and styles come from files alone.
      assetsInlineLimit: 0,
      rollupOptions: { input: "renderer/index.html" },
    },
  },
});
