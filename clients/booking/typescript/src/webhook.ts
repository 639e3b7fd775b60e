// Proves that an event comes from the service: the Standard Webhooks signature scheme, version 1.
// See https://www.standardwebhooks.com and RFC 2104 (HMAC).

import { createHmac, timingSafeEqual } from "node:crypto";

/** How far the sender's clock may be off. What is older may be an old message that somebody sends again. */
export const toleranceS = 5 * 60;

/** A CloudEvents 1.0 event in its JSON form. */
export interface Event {
  specversion: string;
  id: string;
  source: string;
  type: string;
  subject?: string;
  time?: string;
  data?: { job: string; vehicle: string; stage: string; label: string; book_time: string | null; sequence: number };
}

/** The message may come from anybody: answer 401 and do nothing else. */
export class NotProven extends Error {}

export type Headers = Record<string, string | string[] | undefined>;

/**
 * Returns the event in `body`, bytes as they arrived, or throws NotProven. `secrets` are all that are good at the moment: two
 * while a secret is being changed, so that no event is lost.
 */
export function verify(secrets: readonly string[], headers: Headers, body: Buffer, nowS = Date.now() / 1000): Event {
  const id = one(headers["webhook-id"]);
  const stamp = one(headers["webhook-timestamp"]);
  if (id === "" || !/^[0-9]+$/.test(stamp)) throw new NotProven("webhook-id or webhook-timestamp is missing");
  if (Math.abs(nowS - Number(stamp)) > toleranceS) throw new NotProven("the timestamp is too far from now");
  const given = one(headers["webhook-signature"])
    .split(" ")
    .filter((part) => part.startsWith("v1,"))
    .map((part) => Buffer.from(part.slice("v1,".length), "base64"));
  for (const secret of secrets) {
    const key = Buffer.from(secret.replace(/^whsec_/, ""), "base64");
    const want = createHmac("sha256", key).update(`${id}.${stamp}.`).update(body).digest();
    if (given.some((signature) => signature.length === want.length && timingSafeEqual(signature, want))) {
      return JSON.parse(body.toString("utf8")) as Event;
    }
  }
  throw new NotProven("no signature fits");
}

function one(header: string | string[] | undefined): string {
  return typeof header === "string" ? header : "";
}
