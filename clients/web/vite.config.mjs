import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { defineConfig } from "vite";

// What a phone must load before a working screen can be used, packed. The class room and the rules load on their own.
const budget = 120_000;

// shell writes the service worker with the list of all files, and holds the size of the working screens.
function shell() {
  return {
    name: "shell",
    generateBundle(_, bundle) {
      const files = Object.values(bundle);
      const entry = files.find((f) => f.isEntry);
      let working = 0;
      for (const file of files) {
        const text = file.type === "chunk" ? file.code : file.source;
        const size = gzipSync(text, { level: 9 }).length;
        const first = file === entry || entry.imports.includes(file.fileName) || entry.viteMetadata?.importedCss.has(file.fileName);
        if (first) working += size;
        console.log(`${String(size).padStart(8)} B packed  ${file.fileName}${first ? "  (working screens)" : ""}`);
      }
      console.log(`${String(working).padStart(8)} B packed  working screens together, of ${budget} at most`);
      if (working > budget) this.error(`the working screens are ${working} bytes packed; ${budget} is the most`);
      const names = [
        "/",
        "/icon.svg",
        "/manifest.webmanifest",
        ...files
          .map((f) => `/${f.fileName}`)
          .filter((n) => n.startsWith("/assets/"))
          .sort(),
      ];
      const version = createHash("sha256");
      for (const f of files.toSorted((a, b) => (a.fileName < b.fileName ? -1 : 1))) version.update(f.type === "chunk" ? f.code : f.source);
      version.update(readFileSync("index.html"));
      const worker = readFileSync("worker.js", "utf8")
        .replace('"SHELL"', JSON.stringify(names))
        .replace('"VERSION"', JSON.stringify(version.digest("hex").slice(0, 16)));
      this.emitFile({ type: "asset", fileName: "sw.js", source: worker });
    },
  };
}

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: { outDir: "dist", emptyOutDir: true, target: "es2022", modulePreload: { polyfill: false }, assetsInlineLimit: 0, reportCompressedSize: false },
  plugins: [shell()],
});
