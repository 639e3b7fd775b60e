import { readFileSync } from "node:fs";
import { drawFrames } from "./frames.mjs";

// inOne puts everything that a first visit begins with into the page itself, which spares a slow phone the wait for a second answer:
// the style, the frames of the screens, and the script.
//
// Screens that are loaded later share that script, and a script within a page has no address to import it from. So it leaves what it
// exports with the page, and they take it from there.
export function inOne() {
  return {
    name: "in one",
    generateBundle: { order: "post", handler: putIn },
  };
}

async function putIn(_, bundle) {
  const page = bundle["index.html"];
  const entry = take(bundle, Object.values(bundle).find((f) => f.isEntry).fileName);
  const style = take(bundle, /<link rel="stylesheet"[^>]* href="\/([^"]+)">/.exec(page.source)[1]);
  const frames = await drawFrames();
  const ask = readFileSync("ask.js", "utf8").replace('"FILES"', () => literal(filesOf(bundle)));
  const begin = readFileSync("begin.js", "utf8").replace('"FRAMES"', () => literal(frames));
  page.source = page.source
    .replace(/\s*<link rel="stylesheet"[^>]*>/, "")
    .replace(/\s*<script type="module"[^>]*><\/script>/, "")
    .replace("<!--what is asked first-->", () => `<script>${ask}</script>`)
    .replace("<!--style, and what begins-->", () => `<style>${style.source.trim()}</style><script>${begin}</script>`)
    .replace("<!--script-->", () => `<script type="module">${within(entry.code)}</script>`);
  this.emitFile({ type: "asset", fileName: "icon.svg", source: readFileSync("src/look/icon.svg", "utf8").trim() });
}

// take takes a file out, since the page holds it. What imports it finds it there; what would fetch it beforehand is given the name of
// a file that the page has a link to, and so does not fetch again.
function take(bundle, name) {
  const file = bundle[name];
  delete bundle[name];
  const imported = new RegExp(`import\\s*\\{([^}]*)\\}\\s*from\\s*[\`"']\\./${name.split("/").at(-1)}[\`"'];?`);
  for (const other of Object.values(bundle)) {
    if (other.type !== "chunk") continue;
    other.imports = other.imports.filter((f) => f !== name);
    other.viteMetadata.importedCss.delete(name);
    other.code = other.code
      .replace(imported, (_, names) => `const{${names.replaceAll(" as ", ":")}}=globalThis.glossladder;`)
      .replaceAll(JSON.stringify(name), '"manifest.webmanifest"');
    if (other.code.includes(name.split("/").at(-1))) throw new Error(`${other.fileName} still asks for ${name}`);
  }
  return file;
}

// literal writes a value into a script, which a text must not end.
const literal = (value) => JSON.stringify(value).replaceAll("</", "<\\/");

// What a screen or a language is kept in: the files that its address leads to.
const kept = { class: "classroom", rules: "rules", de: "german" };

// filesOf names every file that each of them needs beyond the page.
function filesOf(bundle) {
  const chunks = Object.values(bundle).filter((f) => f.type === "chunk");
  const files = {};
  for (const [of, name] of Object.entries(kept)) {
    const first = chunks.find((f) => f.name === name);
    if (!first) throw new Error(`no file is called ${name}`);
    const needed = new Set([first.fileName]);
    for (const file of needed) for (const other of requiredBy(bundle[file])) needed.add(other);
    files[of] = [...needed].map((file) => `/${file}`);
  }
  return files;
}

const requiredBy = (file) => [...(file.imports ?? []), ...(file.viteMetadata?.importedCss ?? [])];

// within makes of a module what can stand in the page.
function within(code) {
  const exported = /export\s*\{([^}]*)\};?\s*$/;
  if (/<\/script|<!--/i.test(code)) throw new Error("the script of the page holds what would end it there");
  return code
    .replace(exported, (_, names) => `globalThis.glossladder={${names.replaceAll(/([^\s,]+) as ([^\s,]+)/g, "$2:$1")}};`)
    .replaceAll(/\bimport\(([`"'])\.\//g, "import($1/assets/"); // from the page the other files lie elsewhere
}
