import { defineConfig } from "vite";
import { inOne } from "./build/inone.mjs";
import { shell } from "./build/shell.mjs";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    reportCompressedSize: false,
    // What a visit begins with is one script, and no other file is needed to begin. What several screens share comes in few files,
    // since a slow phone waits for their number more than for their size.
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            { name: "page", tags: ["$initial"], priority: 2 },
            { name: "jobframe", test: /src\/screens\/jobframe/, priority: 1 },
          ],
        },
      },
    },
  },
  plugins: [inOne(), shell()],
});
