import { tell } from "./call";
import type { Answer, MethodName, Question, ServiceName } from "./contract";
import { enclose, last, Opener, packed } from "./envelope";
import { Failure } from "./failure";

// A stream may take as long as it likes, but one that works towards an end may not fall silent for so long.
const patience = 120_000;

// quiet is the patience for a stream that has nothing to say until something happens.
export const quiet = 2 ** 31 - 1;

// listen asks a method that answers with a stream, in the Connect protocol's JSON form, and gives its messages as they come. It
// throws a Failure if the stream does not end well. Whoever leaves the loop early, or aborts, ends the work of the service too.
export async function* listen<S extends ServiceName, M extends MethodName<S>>(
  service: S,
  method: M,
  question: Question<S, M>,
  signal: AbortSignal,
  silence = patience,
): AsyncGenerator<Answer<S, M>> {
  const end = new AbortController();
  const stop = () => end.abort();
  let watch = setTimeout(stop, silence);
  signal.addEventListener("abort", stop);
  if (signal.aborted) stop();
  const way = new Way(signal);
  try {
    const response = await way.of(
      fetch(`/glossladder.v1.${service}/${method.charAt(0).toUpperCase()}${method.slice(1)}`, {
        method: "POST",
        headers: { "Content-Type": "application/connect+json", "Connect-Protocol-Version": "1" },
        body: enclose(JSON.stringify(question)),
        cache: "no-store",
        signal: end.signal,
      }),
    );
    tell(response.status === 401 ? "unpaired" : "reached");
    if (!response.ok || !response.body) throw Failure.told(response.status, await way.of(response.text()));
    const reader = response.body.getReader();
    const opener = new Opener();
    for (;;) {
      const { done, value } = await way.of(reader.read());
      if (done) throw Failure.unreached(new Error(opener.torn ? "the stream was cut within a message" : "the stream has no end"));
      clearTimeout(watch);
      watch = setTimeout(stop, silence);
      for (const { flags, text } of opener.take(value)) {
        if (flags & packed) throw new Failure("page", "The service sent a compressed message, which was not asked for.", []);
        if (flags & last) {
          const ended = JSON.parse(text) as { error?: unknown };
          if (ended.error) throw Failure.told(response.status, JSON.stringify(ended.error));
          return;
        }
        yield JSON.parse(text) as Answer<S, M>;
      }
    }
  } finally {
    clearTimeout(watch);
    signal.removeEventListener("abort", stop);
    end.abort();
  }
}

// Way tells a call that was given up from one that was lost.
class Way {
  constructor(private readonly signal: AbortSignal) {}

  async of<T>(step: Promise<T>): Promise<T> {
    try {
      return await step;
    } catch (cause) {
      if (this.signal.aborted) throw new Failure("aborted", "given up", []);
      tell("lost");
      throw Failure.unreached(cause);
    }
  }
}
