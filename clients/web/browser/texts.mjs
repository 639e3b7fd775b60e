// The texts of the page as they stand in its sources, taken from the syntax tree and not by eye.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { parseSync } from "vite";

const root = new URL("../src/", import.meta.url).pathname;

// files of the sources by their path, with their trees.
export function sources() {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && /\.tsx?$/.test(f.name))
    .map((f) => join(f.parentPath ?? f.path, f.name))
    .sort()
    .map((path) => readSource(relative(root, path), readFileSync(path, "utf8")));
}

// Screens whose German stands in a file of its own are held to it from when that file is there.
const later = { "rules.ts": /^screens\/rule/, "work.ts": /^(screens\/(work|jobframe|jobs|newjob)\.tsx|job\/)/ };
const missing = Object.entries(later).flatMap(([file, screens]) => (existsSync(`${root}words/german/${file}`) ? [] : [screens]));
export const isPending = (file) => missing.some((screens) => screens.test(file.path));

// readSource parses one file.
export function readSource(path, text) {
  const { program, errors } = parseSync(path, text);
  if (errors.length) throw new Error(`${path}: ${errors[0].message}`);
  return { path, text, program };
}

// walk visits every node with the nodes around it, the nearest last.
export function walk(node, visit, around = []) {
  if (Array.isArray(node)) for (const n of node) walk(n, visit, around);
  else if (node !== null && typeof node === "object" && typeof node.type === "string") {
    visit(node, around);
    const inside = [...around, node];
    for (const [key, value] of Object.entries(node)) if (key !== "type" && value !== null && typeof value === "object") walk(value, visit, inside);
  }
}

export const lineOf = (file, node) => `src/${file.path}:${file.text.slice(0, node.start).split("\n").length}`;

// literal gives what a node says if that stands fixed, and undefined otherwise.
export function literal(node) {
  if (node?.type === "Literal" && typeof node.value === "string") return node.value;
  if (node?.type === "TemplateLiteral" && node.expressions.length === 0) return node.quasis[0].value.cooked;
  return undefined;
}

const says = new Set(["phrase", "parts"]);
const own = "words/phrase.ts"; // where they are made

// keysOf gives every text that a file says by phrase or parts, with its line, and complains of those that are no plain text, or are
// said before the page knows its language.
export function keysOf(file) {
  const keys = [];
  const wrong = [];
  if (file.path === own) return { keys, wrong };
  walk(file.program, (node, around) => {
    if (node.type !== "CallExpression" || node.callee.type !== "Identifier" || !says.has(node.callee.name)) return;
    const key = literal(node.arguments[0]);
    if (key === undefined) wrong.push(`${lineOf(file, node)}: the text of ${node.callee.name}() is no literal`);
    else keys.push({ key, at: lineOf(file, node) });
    if (!around.some((n) => /Function/.test(n.type))) wrong.push(`${lineOf(file, node)}: said before the language is known; put it in a function`);
  });
  return { keys, wrong };
}

// Attributes that people read or hear, of elements and of our own parts.
const told = new Set(["aria-label", "aria-valuetext", "aria-description", "title", "placeholder", "alt", "label", "hint", "heading", "open", "name", "says"]);
const letters = /\p{L}{2,}/u;
// Names, symbols of units and what rule files write: they are alike in every language.
const alike = /^(Glossladder|Language|Sprache|English|Deutsch|µm|GU|HU|cm|kB|min|let)$/u;
const bare = (text) => (text.match(/[\p{L}\p{M}]+/gu) ?? []).some((w) => letters.test(w) && !alike.test(w));

// plainly finds text that an expression shows as it stands, through its branches.
function plainly(node, found) {
  switch (node?.type) {
    case "Literal":
      if (typeof node.value === "string" && bare(node.value)) found(node);
      return;
    case "TemplateLiteral":
      if (node.quasis.some((q) => bare(q.value.cooked))) found(node);
      for (const e of node.expressions) plainly(e, found);
      return;
    case "ConditionalExpression":
      plainly(node.consequent, found);
      plainly(node.alternate, found);
      return;
    case "LogicalExpression":
      if (node.operator !== "&&") plainly(node.left, found);
      plainly(node.right, found);
      return;
    case "BinaryExpression":
      if (node.operator !== "+") return;
      plainly(node.left, found);
      plainly(node.right, found);
      return;
    case "JSXExpressionContainer":
    case "ParenthesizedExpression":
    case "TSNonNullExpression":
    case "TSAsExpression":
      plainly(node.expression, found);
  }
}

// Parts of the page that take a name for something other than to show it.
const unread = (element, attribute) => (attribute === "name" && !/^[A-Z]/.test(element) ? true : attribute === "open" && element === "details");

// bareIn lists text of a file that people would read in English whatever the page's language is.
export function bareIn(file) {
  const found = [];
  const tell = (node) => found.push(`${lineOf(file, node)}: ${file.text.slice(node.start, node.end).trim().replace(/\s+/g, " ").slice(0, 90)}`);
  walk(file.program, (node, around) => {
    if (node.type === "JSXText" && bare(node.value)) tell(node);
    else if (node.type === "JSXExpressionContainer" && around.at(-1)?.type !== "JSXAttribute") plainly(node.expression, tell);
    else if (node.type === "JSXAttribute" && told.has(node.name.name) && !unread(around.at(-1)?.name?.name ?? "", node.name.name)) plainly(node.value, tell);
    else if (node.type === "CallExpression" && /^(say|confirm|alert)$/.test(node.callee.name ?? "")) plainly(node.arguments[0], tell);
  });
  return found;
}

// wordKinds gives the kinds of words that are said: word(…, "STEP"), and prefix="STEP" of a choice.
export function wordKinds(file) {
  const kinds = [];
  walk(file.program, (node) => {
    const isWord = node.type === "CallExpression" && node.callee.name === "word";
    const isChoice = node.type === "JSXAttribute" && node.name.name === "prefix";
    const kind = isWord ? literal(node.arguments[1]) : isChoice ? literal(node.value) : undefined;
    if (kind !== undefined) kinds.push(kind);
  });
  return kinds;
}

// catalogue reads the texts of a language's file: every exported object, its keys as they are written, nested ones by their kind.
export function catalogue(file) {
  const tables = {};
  walk(file.program, (node) => {
    if (node.type !== "ExportNamedDeclaration" || node.declaration?.type !== "VariableDeclaration") return;
    for (const d of node.declaration.declarations) if (d.init?.type === "ObjectExpression") tables[d.id.name] = entries(file, d.init);
  });
  return tables;
}

function entries(file, object) {
  return object.properties.flatMap((p) => {
    if (p.type !== "Property") return [];
    const key = literal(p.key) ?? (p.computed ? undefined : p.key.name) ?? String(p.key.value);
    const text = literal(p.value);
    return [{ key, text, at: lineOf(file, p), inside: p.value.type === "ObjectExpression" ? entries(file, p.value) : undefined }];
  });
}

// places to fill in, by name; a word for one or for many has both.
export const placesOf = (text) => [...new Set([...text.matchAll(/\{(\w+)(\|[^|}]*\|[^}]*)?\}/g)].map((m) => m[1]))].sort();

// English texts of the page of more than one word and without places: none of them is seen while the page is in German.
const english = () => {
  const pending = sources().filter(isPending);
  return sources()
    .filter((f) => f.path.startsWith("words/german/"))
    .flatMap((f) => Object.entries(catalogue(f)))
    .filter(([name]) => name !== "words" && name !== "german")
    .flatMap(([, entries]) => entries)
    .filter((t) => /^[^{]* [^{]*$/.test(t.key) && t.key !== t.text && !pending.some((f) => f.text.includes(t.key)))
    .map((t) => t.key);
};
let known;

// englishIn gives what is read on a German page, or out of it, in English, apart from what is marked as such: the words of rules and
// of the service.
export async function englishIn(page) {
  known ??= new Set(english());
  const seen = await page.evaluate(() => {
    const said = [];
    const look = (e) => {
      if (e.closest("[lang]").lang === "en") return;
      for (const name of ["aria-label", "placeholder", "title", "alt"]) if (e.hasAttribute(name)) said.push(e.getAttribute(name));
      for (const n of e.childNodes) {
        if (n.nodeType === Node.TEXT_NODE) said.push(n.textContent.trim());
        else if (n.nodeType === Node.ELEMENT_NODE) look(n);
      }
    };
    look(document.body);
    return said.filter(Boolean);
  });
  return seen.filter((text) => known.has(text));
}
