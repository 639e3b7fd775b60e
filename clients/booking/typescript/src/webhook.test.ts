// npm test

import assert from "node:assert/strict";
import { test } from "node:test";
import { type Headers, NotProven, verify } from "./webhook.js";

// The example that the Standard Webhooks libraries publish in their tests.
const secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
const body = '{"test": 2432232314}';
const sent = 1614265330;
const headers: Headers = {
  "webhook-id": "msg_p5jXN8AQM9LWM0D4loKWxJek",
  "webhook-timestamp": String(sent),
  "webhook-signature": "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
};
const other = `whsec_${"A".repeat(32)}`;

interface Change {
  body?: string;
  secrets?: string[];
  now?: number;
  headers?: Headers;
}

function check(change: Change = {}): unknown {
  return verify(change.secrets ?? [secret], { ...headers, ...change.headers }, Buffer.from(change.body ?? body), change.now ?? sent);
}

test("the published signature fits", () => {
  assert.deepEqual(check(), { test: 2432232314 });
});

test("one of several signatures and secrets is enough", () => {
  check({ secrets: [other, secret] });
  check({ headers: { "webhook-signature": `v2,x v1,AAAA ${headers["webhook-signature"]}` } });
});

test("clocks may differ a little", () => {
  check({ now: sent + 299 });
  check({ now: sent - 299 });
});

const wrong: Record<string, Change> = {
  "another body": { body: '{"test": 2432232315}' },
  "another id": { headers: { "webhook-id": "msg_another" } },
  "another time": { headers: { "webhook-timestamp": String(sent + 1) } },
  "another secret": { secrets: [other] },
  "no secret": { secrets: [] },
  "an old message": { now: sent + 301 },
  "a message from the future": { now: sent - 301 },
  "no signature": { headers: { "webhook-signature": "" } },
  "a scheme that is not known": { headers: { "webhook-signature": "v2,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=" } },
  "no id": { headers: { "webhook-id": undefined } },
  "a time that is none": { headers: { "webhook-timestamp": "now" } },
};

for (const [name, change] of Object.entries(wrong)) {
  test(`not proven: ${name}`, () => {
    assert.throws(() => check(change), NotProven);
  });
}
