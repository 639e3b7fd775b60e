// Streams in the envelopes of the Connect protocol (connectrpc.com/docs/protocol, "Streaming RPCs"): however the network cuts them.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { runnerImport } from "vite";

let opener, enclose, listen, server, answer, gone, asked;
before(async () => {
  ({
    module: { Opener: opener, enclose },
  } = await runnerImport("./src/wire/envelope.ts"));
  ({
    module: { listen },
  } = await runnerImport("./src/wire/stream.ts"));
  server = createServer(async (request, response) => {
    const pieces = [];
    for await (const piece of request) pieces.push(piece);
    asked = { path: request.url, type: request.headers["content-type"], body: Buffer.concat(pieces) };
    response.on("close", () => (gone = !response.writableEnded));
    await answer(response);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const far = globalThis.fetch;
  globalThis.fetch = (path, init) => far(`http://127.0.0.1:${server.address().port}${path}`, init);
});
after(() => server.close());

// The envelope as the specification draws it, written by hand: flags, length in four bytes, the highest first, the message.
const message = (text, flags = 0) => {
  const body = Buffer.from(text);
  const head = Buffer.alloc(5);
  head.writeUInt8(flags, 0);
  head.writeUInt32BE(body.length, 1);
  return Buffer.concat([head, body]);
};
const whole = Buffer.concat([message('{"decisions_done":"5000"}'), message('{"report":{"rule_set":"ä"}}'), message("{}", 2)]);

test("a question is enclosed as the specification says", () => {
  assert.deepEqual(Buffer.from(enclose('{"ä":1}')), message('{"ä":1}'));
});

test("envelopes come out the same wherever the stream is cut", () => {
  for (let cut = 0; cut <= whole.length; cut++) {
    const o = new opener();
    const out = [...o.take(whole.subarray(0, cut)), ...o.take(whole.subarray(cut))];
    assert.deepEqual(
      out.map((e) => [e.flags, e.text]),
      [
        [0, '{"decisions_done":"5000"}'],
        [0, '{"report":{"rule_set":"ä"}}'],
        [2, "{}"],
      ],
      `cut at ${cut}`,
    );
    assert.equal(o.torn, false);
  }
  const o = new opener();
  const byByte = [...whole].flatMap((b) => o.take(Uint8Array.of(b)));
  assert.equal(byByte.length, 3);
  o.take(whole.subarray(0, 3));
  assert.equal(o.torn, true);
});

async function all(signal = new AbortController().signal) {
  const out = [];
  for await (const said of listen("HistoryService", "replayRules", { files: { "a.yaml": "x" } }, signal)) out.push(said);
  return out;
}
const streaming = (response) => response.writeHead(200, { "Content-Type": "application/connect+json" });

test("messages are given as they come, up to a good end", async () => {
  answer = async (response) => {
    streaming(response);
    for (const b of whole) {
      response.write(Buffer.of(b));
      await new Promise((resolve) => setImmediate(resolve));
    }
    response.end();
  };
  assert.deepEqual(await all(), [{ decisions_done: "5000" }, { report: { rule_set: "ä" } }]);
  assert.equal(asked.path, "/glossladder.v1.HistoryService/ReplayRules");
  assert.equal(asked.type, "application/connect+json");
  assert.deepEqual(asked.body, message('{"files":{"a.yaml":"x"}}'));
});

test("an end with an error is a failure with its code and words", async () => {
  answer = async (response) => {
    streaming(response);
    response.end(message('{"error":{"code":"invalid_argument","message":"the rules that were sent do not load"}}', 2));
  };
  await assert.rejects(all(), (e) => e.code === "invalid_argument" && /do not load/.test(e.message));
});

test("a stream without an end is a lost one, and so is one that is cut within a message", async () => {
  for (const length of [whole.length - 7, whole.length - 3, 2]) {
    answer = async (response) => {
      streaming(response);
      response.end(whole.subarray(0, length));
    };
    await assert.rejects(all(), (e) => e.code === "unreached", `${length} bytes`);
  }
});

test("a refusal before the stream begins is told as any other", async () => {
  answer = async (response) => {
    response.writeHead(401, { "Content-Type": "application/json" });
    response.end('{"code":"unauthenticated","message":"no key"}');
  };
  await assert.rejects(all(), (e) => e.code === "unauthenticated" && e.message === "no key");
});

test("whoever gives up ends the call on the other side too", async () => {
  gone = false;
  answer = async (response) => {
    streaming(response);
    response.write(message('{"decisions_done":"5000"}'));
    await new Promise((resolve) => response.on("close", resolve));
  };
  const leave = new AbortController();
  const said = [];
  await assert.rejects(
    (async () => {
      for await (const s of listen("HistoryService", "replayRules", { files: {} }, leave.signal)) {
        said.push(s);
        leave.abort();
      }
    })(),
    (e) => e.code === "aborted",
  );
  assert.equal(said.length, 1);
  const end = Date.now() + 5000;
  while (!gone && Date.now() < end) await new Promise((resolve) => setTimeout(resolve, 10));
  assert.equal(gone, true);
});
