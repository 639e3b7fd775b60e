// What a browser is sent packed is what it would be sent plain, for every file of the page. Node's own brotli and gzip are the judges.
import assert from "node:assert/strict";
import { get } from "node:http";
import { after, before, test } from "node:test";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { serve } from "./house.mjs";

const unpack = { br: brotliDecompressSync, gzip: gunzipSync };
let service;
before(async () => {
  service = await serve();
});
after(() => service.stop());

// read gives a file as it comes, not unpacked.
const read = (path, codings) =>
  new Promise((resolve, reject) => {
    get(service.url + path, { headers: { "Accept-Encoding": codings } }, async (answer) => {
      const pieces = [];
      for await (const piece of answer) pieces.push(piece);
      resolve({ coding: answer.headers["content-encoding"], body: Buffer.concat(pieces) });
    }).on("error", reject);
  });

async function allFiles() {
  const { body } = await read("/sw.js", "identity");
  const files = [...body.toString().matchAll(/"(\/[^"]*)"/g)].map(([, path]) => path);
  assert.ok(files.length > 10, "the service worker names every file");
  return ["/sw.js", ...files];
}

for (const coding of ["br", "gzip"])
  test(`every file unpacks from ${coding} to what it is`, async () => {
    for (const path of await allFiles()) {
      const plain = await read(path, "identity");
      const packed = await read(path, coding);
      if (!packed.coding) continue; // too small to gain by it
      assert.equal(packed.coding, coding, path);
      assert.ok(packed.body.length < plain.body.length, `${path} is smaller`);
      assert.ok(unpack[coding](packed.body).equals(plain.body), path);
    }
    assert.equal((await read("/", coding)).coding, coding, "the page itself is packed");
  });
