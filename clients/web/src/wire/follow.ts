import type { Answer, Question } from "./contract";

// The Connect protocol puts a frame around each message of a stream: a byte of flags, four of length, and the message. The last
// frame has the flag of the end.
const head = 5;
const end = 2;

function framed(message: unknown): Uint8Array<ArrayBuffer> {
  const text = new TextEncoder().encode(JSON.stringify(message));
  const out = new Uint8Array(head + text.length);
  new DataView(out.buffer).setUint32(1, text.length);
  out.set(text, head);
  return out;
}

// follow tells of each event of a job after a sequence number until the signal stops it. It returns when the stream ends, and
// throws when it breaks; whoever asks again goes on from the last one seen.
export async function follow(
  question: Question<"JobService", "watchJob">,
  hear: (said: Answer<"JobService", "watchJob">) => void,
  signal: AbortSignal,
): Promise<void> {
  const response = await fetch("/glossladder.v1.JobService/WatchJob", {
    method: "POST",
    headers: { "Content-Type": "application/connect+json", "Connect-Protocol-Version": "1" },
    body: framed(question),
    cache: "no-store",
    signal,
  });
  if (!response.ok || !response.body) throw new Error(`status ${response.status}`);
  const reader = response.body.getReader();
  let rest = new Uint8Array();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const all = new Uint8Array(rest.length + value.length);
    all.set(rest);
    all.set(value, rest.length);
    rest = all;
    while (rest.length >= head) {
      const length = new DataView(rest.buffer, rest.byteOffset).getUint32(1);
      if (rest.length < head + length) break;
      if ((rest[0] ?? 0) & end) return;
      hear(JSON.parse(new TextDecoder().decode(rest.subarray(head, head + length))) as Answer<"JobService", "watchJob">);
      rest = rest.slice(head + length);
    }
  }
}
