// What the screens of the rules work out by themselves: differences of texts, searches, places, and hints put into a text.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { before, test } from "node:test";
import { runnerImport } from "vite";

let difference, around, addressOf, ofAddress;
before(async () => {
  globalThis.location = { hash: "" };
  globalThis.addEventListener = () => {};
  ({
    module: { difference, around },
  } = await runnerImport("./src/rules/difference.ts"));
  ({
    module: { addressOf, ofAddress },
  } = await runnerImport("./src/rules/address.ts"));
});

const shown = (lines) => lines.map((l) => ({ same: " ", gone: "-", new: "+" })[l.kind] + l.text);

// The diff of POSIX systems is the judge: applied to either side a difference must give the other, and be no longer than that.
test("a difference gives both texts again, and is as short as diff makes it", () => {
  const folder = mkdtempSync(join(tmpdir(), "lines-"));
  let seed = 7;
  const roll = (n) => {
    seed = (seed * 48271) % 2147483647;
    return seed % n;
  };
  try {
    for (let round = 0; round < 60; round++) {
      const text = () => Array.from({ length: roll(14) }, () => "abcd"[roll(4)]).join("\n");
      const [a, b] = [text(), text()];
      const lines = difference(a, b);
      const side = (leave) =>
        lines
          .filter((l) => l.kind !== leave)
          .map((l) => l.text)
          .join("\n");
      assert.equal(side("new"), a);
      assert.equal(side("gone"), b);
      const [one, other] = [join(folder, "a"), join(folder, "b")];
      writeFileSync(one, `${a}\n`);
      writeFileSync(other, `${b}\n`);
      let said = "";
      try {
        execFileSync("diff", ["--minimal", one, other]);
      } catch (e) {
        said = String(e.stdout);
      }
      const theirs = said.split("\n").filter((l) => /^[<>]/.test(l)).length;
      assert.equal(lines.filter((l) => l.kind !== "same").length, theirs, `${JSON.stringify(a)} and ${JSON.stringify(b)}\n${shown(lines).join("\n")}`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("only what lies around a difference is shown", () => {
  const a = Array.from({ length: 20 }, (_, i) => `line ${i}`);
  const b = a.with(9, "other");
  const out = around(difference(a.join("\n"), b.join("\n")));
  assert.deepEqual(shown(out), [" line 7", " line 8", "-line 9", "+other", " line 10", " line 11"]);
  const far = around(difference(a.join("\n"), a.with(2, "x").with(17, "y").join("\n")), 1);
  assert.equal(far.filter((l) => l === undefined).length, 1, "one gap between two places");
  assert.deepEqual(around(difference("same", "same")), []);
});

test("an address names a file, and a line if there is one", () => {
  const rows = [
    [["start.yaml", undefined], ["start.yaml"]],
    [
      ["start.yaml", 12],
      ["start.yaml", "12"],
    ],
    [
      ["cases/start.yaml", 7],
      ["cases", "start.yaml", "7"],
    ],
    [
      ["cases/12", undefined],
      ["cases", "12"],
    ],
    [
      ["cases/12", 3],
      ["cases", "12", "3"],
    ],
    [["12", undefined], ["12"]],
  ];
  for (const [[name, line], parts] of rows) {
    assert.equal(addressOf(name, line), `#/rules/file/${parts.join("/")}`);
    assert.deepEqual(ofAddress(parts), line === undefined ? { name } : { name, line });
  }
});
