import { defineConfig } from "vite";
import { inOne } from "./build/inone.mjs";
import { packed } from "./build/packed.mjs";
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
    // What the screens of a working day are made of is one script, and no other file is needed for them: a slow phone waits for the
    // number of files more than for their size.
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [{ name: "page", tags: ["$initial"] }],
        },
      },
    },
  },
  plugins: [inOne(), shell(), packed()],
});
