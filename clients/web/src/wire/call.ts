import type { Answer, MethodName, Question, ServiceName } from "./contract";
import { Failure } from "./failure";

// A phone at the far end of a hall may wait long for an answer that never comes; then the call counts as lost.
const patience = 20_000;

// Whether the service was reached, and whether it knows this device.
export type Reach = "reached" | "lost" | "unpaired";
type Ear = (reach: Reach) => void;
const ears = new Set<Ear>();

// onReach tells after every call how it went on the way.
export function onReach(ear: Ear): () => void {
  ears.add(ear);
  return () => ears.delete(ear);
}

// What the page asked before its script came (see ask.js), by the address and the question. Each answer is taken once, and while
// it is new.
declare global {
  var early: Record<string, Promise<Response>> | undefined;
}
const newFor = 10_000; // ms after the visit began

function takeEarly(to: string, question: string): Promise<Response> | undefined {
  const answer = globalThis.early?.[to + question];
  delete globalThis.early?.[to + question];
  return performance.now() < newFor ? answer : undefined;
}

// call asks one method in the Connect protocol's JSON form and throws a Failure if there is no answer.
export async function call<S extends ServiceName, M extends MethodName<S>>(
  service: S,
  method: M,
  question: Question<S, M>,
  signal?: AbortSignal,
): Promise<Answer<S, M>> {
  const limit = AbortSignal.timeout(patience);
  let response: Response;
  let text: string;
  try {
    const to = `/glossladder.v1.${service}/${method.charAt(0).toUpperCase()}${method.slice(1)}`;
    const body = JSON.stringify(question);
    response = await (takeEarly(to, body) ??
      fetch(to, {
        method: "POST",
        headers: { "Content-Type": "application/json", "Connect-Protocol-Version": "1" },
        body,
        cache: "no-store",
        signal: signal ? AbortSignal.any([signal, limit]) : limit,
      }));
    text = await response.text();
  } catch (cause) {
    if (signal?.aborted) throw new Failure("aborted", "given up", []);
    tell("lost");
    throw Failure.unreached(cause);
  }
  tell(response.status === 401 ? "unpaired" : "reached");
  if (response.ok) return JSON.parse(text) as Answer<S, M>;
  throw Failure.told(response.status, text);
}

// tell says how a call went on the way.
export function tell(reach: Reach): void {
  for (const ear of ears) ear(reach);
}
