import { readFileSync } from "node:fs";
import { runnerImport } from "vite";

// inOne puts everything that a first visit begins with into the page itself, which spares a slow phone the wait for a second answer:
// the style, the sign, the texts of the frame in every language, and the script.
//
// Screens that are loaded later share that script, and a script within a page has no address to import it from. So it leaves what it
// exports with the page, and the file that they import hands that on.
export function inOne() {
  return {
    name: "in one",
    generateBundle: { order: "post", handler: putIn },
  };
}

async function putIn(_, bundle) {
  const page = bundle["index.html"];
  const entry = Object.values(bundle).find((f) => f.isEntry);
  const icon = readFileSync("src/look/icon.svg", "utf8").trim();
  this.emitFile({ type: "asset", fileName: "icon.svg", source: icon });
  const { module } = await runnerImport("./src/words/german/german.ts");
  const style = (_, name) => `<style>${taken(bundle, name, entry.fileName)}</style>`;
  page.source = page.source
    .replace(/<link rel="stylesheet"[^>]* href="\/([^"]+)">/, style)
    .replace(/\s*<script type="module"[^>]*><\/script>/, "")
    .replace("<!--sign-->", icon)
    .replaceAll(/>\{([^}]+)\}</g, (_, text) => `>${inEvery(text, module.german.phrases)}<`)
    .replace("<!--begin-->", () => `<script>${readFileSync("begin.js", "utf8")}</script>`);
  const { script, handsOn } = inTwo(entry.code);
  entry.code = handsOn;
  page.source = page.source.replace("<!--script-->", () => `<script type="module">${script}</script>`);
}

// taken takes a style out of the files. Scripts that would fetch it first have it with the page, as they have what stands in for it.
function taken(bundle, name, instead) {
  const { source } = bundle[name];
  delete bundle[name];
  for (const file of Object.values(bundle)) if (file.type === "chunk") file.code = file.code.replaceAll(JSON.stringify(name), JSON.stringify(instead));
  return source.trim();
}

// inTwo makes of a module the script for the page and the file in its place.
function inTwo(code) {
  const exported = /export\s*\{([^}]*)\};?\s*$/;
  if (/<\/script|<!--/i.test(code)) throw new Error("the script of the page holds what would end it there");
  const names = exported
    .exec(code)[1]
    .split(",")
    .map((pair) => pair.trim().split(" as "));
  const out = names.map(([, as]) => as);
  return {
    script: code
      .replace(exported, () => `globalThis.glossladder={${names.map(([here, as]) => `${as}:${here}`)}};`)
      .replaceAll(/\bimport\(([`"'])\.\//g, "import($1/assets/"), // from the page the other files lie elsewhere
    handsOn: `const {${out}}=globalThis.glossladder;export{${out}};`,
  };
}

// inEvery says a text in both languages; the style shows the one that the page is in.
function inEvery(text, german) {
  if (!german[text]) throw new Error(`index.html says ${JSON.stringify(text)}, which has no German`);
  return `<span class="in-en">${text}</span><span class="in-de">${german[text]}</span>`;
}
