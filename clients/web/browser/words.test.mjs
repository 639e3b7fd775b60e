// Every text of the page is in every language, whole: held on the sources themselves.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { bareIn, catalogue, isPending, keysOf, literal, placesOf, readSource, sources, walk, wordKinds } from "./texts.mjs";

const german = new URL("../src/words/german/", import.meta.url);
const proto = new URL("../../../proto/glossladder/v1/", import.meta.url);

const all = sources();
const pages = all.filter((f) => !f.path.startsWith("words/german/") && !isPending(f));
const books = all.filter((f) => f.path.startsWith("words/german/"));
const said = pages.flatMap((f) => keysOf(f).keys);
const tables = books.flatMap((f) => Object.entries(catalogue(f)));
const words = Object.fromEntries(tables.find(([name]) => name === "words")[1].map((kind) => [kind.key, kind.inside]));
const texts = tables.filter(([name]) => name !== "words" && name !== "german").flatMap(([, entries]) => entries);

test("every text is a literal, said once the language is known", () => {
  assert.deepEqual(
    pages.flatMap((f) => keysOf(f).wrong),
    [],
  );
  assert.ok(said.length > 300, `only ${said.length} texts were found`);
});

test("nothing is shown that is in English whatever the language is", () => {
  assert.deepEqual(pages.flatMap(bareIn), []);
});

test("every text has its German, with the same places to fill in", () => {
  const translated = new Map(texts.map((t) => [t.key, t]));
  const without = said.filter((s) => !translated.has(s.key)).map((s) => `${s.at}: ${JSON.stringify(s.key)} has no German`);
  assert.deepEqual([...new Set(without)], []);
  const odd = texts.filter((t) => t.text === undefined || t.text === "" || String(placesOf(t.text)) !== String(placesOf(t.key)));
  assert.deepEqual(
    odd.map((t) => `${t.at}: ${JSON.stringify(t.key)} and ${JSON.stringify(t.text)} differ in what is filled in`),
    [],
  );
});

test("no German is left over, and none says two things", () => {
  const used = new Set(said.map((s) => s.key));
  assert.deepEqual(
    texts.filter((t) => !used.has(t.key)).map((t) => `${t.at}: nothing says ${JSON.stringify(t.key)}`),
    [],
  );
  const first = new Map();
  for (const t of texts) {
    const before = first.get(t.key) ?? t;
    assert.equal(t.text, before.text, `${before.at} and ${t.at} differ on ${JSON.stringify(t.key)}`);
    first.set(t.key, before);
  }
});

test("every file of German texts is part of German", () => {
  const index = books.find((f) => f.path.endsWith("/german.ts"));
  const taken = index.program.body.filter((n) => n.type === "ImportDeclaration").map((n) => `${n.source.value.split("/").at(-1)}.ts`);
  for (const file of readdirSync(german).filter((f) => f !== "german.ts")) assert.ok(taken.includes(file), `german.ts does not take ${file}`);
});

// enums gives the values of every enumeration of the contract by their prefix, in plain words.
function enums() {
  const found = new Map();
  for (const file of readdirSync(proto).filter((f) => f.endsWith(".proto"))) {
    const text = readFileSync(new URL(file, proto), "utf8").replaceAll(/\/\/.*$/gm, "");
    for (const [, body] of text.matchAll(/\benum \w+ \{([^{}]*(?:\{[^}]*\}[^{}]*)*)\}/g)) {
      const values = [...body.matchAll(/^\s*([A-Z][A-Z0-9_]*) = \d+/gm)].map((m) => m[1]);
      const prefix = values.find((v) => v.endsWith("_UNSPECIFIED"))?.slice(0, -"_UNSPECIFIED".length);
      if (prefix)
        found.set(
          prefix,
          values
            .filter((v) => v !== `${prefix}_UNSPECIFIED`)
            .map((v) =>
              v
                .slice(prefix.length + 1)
                .toLowerCase()
                .replaceAll("_", " "),
            ),
        );
    }
  }
  return found;
}

test("every word of the contract that the page says is there in German, and no other", () => {
  const contract = enums();
  const kinds = new Set(pages.flatMap(wordKinds));
  assert.ok(kinds.size > 15, [...kinds].join());
  for (const kind of kinds) {
    assert.ok(contract.has(kind), `the contract has no ${kind}`);
    for (const word of contract.get(kind))
      assert.ok(
        words[kind]?.some((w) => w.key === word && w.text),
        `${kind}: "${word}" has no German`,
      );
  }
  for (const [kind, inside] of Object.entries(words)) {
    if (!contract.has(kind)) continue; // names of panels, spots, facts and units
    for (const w of inside) assert.ok(contract.get(kind).includes(w.key), `${w.at}: the contract does not know ${kind} "${w.key}"`);
  }
});

test("every panel of the drawing has a German name", () => {
  const ids = [];
  walk(all.find((f) => f.path === "parts/outline.tsx").program, (n) => {
    if (n.type === "CallExpression" && /^(left|right)$/.test(n.callee.name ?? "")) ids.push(literal(n.arguments[0]));
    if (n.type === "Property" && n.key.name === "id" && literal(n.value)) ids.push(literal(n.value));
  });
  assert.equal(ids.length, 17);
  const names = words.PANEL.map((w) => w.key.toLowerCase().split(/[ -]/).sort().join());
  for (const id of ids) assert.ok(names.includes(id.split("-").sort().join()), id);
});

// The checks themselves see what they are there for.
const look = (text) => readSource("screens/invented.tsx", text);

for (const [name, text] of Object.entries({
  "text in an element": "export const A = () => <p>Measure again</p>;",
  "text by a condition": 'export const A = ({ x }) => <p>{x ? "Measured" : y}</p>;',
  "text after a condition": 'export const A = ({ x }) => <p>{x && "Measured"}</p>;',
  "text around a value": `export const A = ({ n }) => <p>{\`\${n} readings\`}</p>;`,
  "text added to a value": 'export const A = ({ n }) => <p>{n + " readings"}</p>;',
  "a name that is read out": 'export const A = () => <button aria-label="Delete" />;',
  "a name by a condition": 'export const A = ({ x }) => <button title={x ? "Delete" : ""} />;',
  "the label of a part": 'export const A = () => <TextEntry label="Note" />;',
  "a placeholder": 'export const A = () => <input placeholder="such as this" />;',
  "a short word at the foot": 'export const a = () => say("Plan kept.");',
})) {
  test(`bare text is found: ${name}`, () => assert.equal(bareIn(look(text)).length, 1));
}

for (const [name, text] of Object.entries({
  "a phrase": 'export const A = () => <p>{phrase("Measure again")}</p>;',
  "the name of the program": "export const A = () => <span>Glossladder</span>;",
  "a unit and a sign": `export const A = ({ n }) => <p>{\`± \${n} µm\`} ◂</p>;`,
  "a class and an id": 'export const A = ({ x }) => <p class={x ? "here" : "there"} id="marks" />;',
  "a group of buttons": 'export const A = ({ name }) => <input name="softness" value={name} />;',
})) {
  test(`no bare text: ${name}`, () => assert.deepEqual(bareIn(look(text)), []));
}

test("a text that is put together, or said too early, is refused", () => {
  assert.equal(keysOf(look("export const f = (x) => phrase(x);")).wrong.length, 1);
  assert.equal(keysOf(look('export const f = (x) => phrase("Measure " + x);')).wrong.length, 1);
  assert.equal(keysOf(look(`export const f = (x) => parts(\`Measure \${x}\`, {});`)).wrong.length, 1);
  assert.equal(keysOf(look('export const early = phrase("Measure");')).wrong.length, 1);
  assert.deepEqual(keysOf(look('export const f = () => phrase("Measure");')), { keys: [{ key: "Measure", at: "src/screens/invented.tsx:1" }], wrong: [] });
});

test("places to fill in are told apart", () => {
  assert.deepEqual(placesOf("{n} {n|reading|readings} of {panel}"), ["n", "panel"]);
  assert.deepEqual(placesOf("no place"), []);
});
