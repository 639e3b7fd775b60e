import { existsSync, readdirSync, readFileSync } from "node:fs";
import { brotliCompressSync, brotliDecompressSync, constants } from "node:zlib";

// The built files as they are kept, wherever this build goes to.
const kept = "dist";
const mostThorough = { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_MODE]: constants.BROTLI_MODE_TEXT } };

// packed puts beside every file what a browser may take instead: the same, packed by brotli as thoroughly as it goes. That takes too
// long for a service that starts, and makes the page a seventh smaller than the gzip that every browser takes.
export function packed() {
  let before = new Map();
  return {
    name: "packed",
    // Versions of the packer differ in their bytes. What still holds the same text stays as it is.
    buildStart() {
      const names = existsSync(kept) ? readdirSync(kept, { recursive: true }).filter((name) => name.endsWith(".br")) : [];
      before = new Map(names.map((name) => [name, readFileSync(`${kept}/${name}`)]));
    },
    generateBundle: {
      order: "post",
      handler(_, bundle) {
        for (const file of Object.values(bundle)) {
          const text = Buffer.from(file.type === "chunk" ? file.code : file.source);
          const fileName = `${file.fileName}.br`;
          const old = before.get(fileName);
          const source = old && brotliDecompressSync(old).equals(text) ? old : brotliCompressSync(text, mostThorough);
          if (source.length < text.length) this.emitFile({ type: "asset", fileName, source });
        }
      },
    },
  };
}
