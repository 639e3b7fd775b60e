import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

// What a phone must load before it can do a day's work, packed. The class room and the rules load on their own.
const budget = 120_000;
const work = ["index.html"];

// shell writes the service worker with the list of all files, and holds the size of the working screens.
export function shell() {
  return {
    name: "shell",
    generateBundle: { order: "post", handler: write },
  };
}

function write(_, bundle) {
  holdSize(bundle, (complaint) => this.error(complaint));
  this.emitFile({ type: "asset", fileName: "sw.js", source: worker(Object.values(bundle)) });
}

const textOf = (file) => (file.type === "chunk" ? file.code : file.source);

// closure names what each of some files needs, with the files themselves.
function closure(bundle, names) {
  const out = new Set(names);
  for (const name of out) for (const other of bundle[name].imports ?? []) out.add(other);
  return out;
}

function holdSize(bundle, complain) {
  const asked = Object.values(bundle).filter((f) => work.includes(f.fileName) || work.includes(f.name));
  const working = closure(
    bundle,
    asked.map((f) => f.fileName),
  );
  let sum = 0;
  for (const [name, file] of Object.entries(bundle)) {
    const size = gzipSync(textOf(file), { level: 9 }).length;
    if (working.has(name)) sum += size;
    console.log(`${String(size).padStart(8)} B packed  ${name}${working.has(name) ? "  (working screens)" : ""}`);
  }
  console.log(`${String(sum).padStart(8)} B packed  working screens together, of ${budget} at most`);
  if (sum > budget) complain(`the working screens are ${sum} bytes packed; ${budget} is the most`);
}

function worker(files) {
  const assets = files.map((f) => `/${f.fileName}`).filter((n) => n.startsWith("/assets/"));
  const version = createHash("sha256");
  for (const f of files.toSorted((a, b) => (a.fileName < b.fileName ? -1 : 1))) version.update(textOf(f));
  return readFileSync("worker.js", "utf8")
    .replace('"SHELL"', JSON.stringify(["/", "/icon.svg", "/manifest.webmanifest", ...assets.sort()]))
    .replace('"VERSION"', JSON.stringify(version.digest("hex").slice(0, 16)));
}
