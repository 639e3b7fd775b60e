// whenIdle does something once the device has nothing else to do, at the latest after so many ms.
export function whenIdle(then: () => void, latest: number): void {
  if ("requestIdleCallback" in window) requestIdleCallback(then, { timeout: latest });
  else setTimeout(then, 50);
}

const waiting = new Set<() => void>();

// inTurn does small things one after the other, each when the device has nothing else to do, so that none of them holds up somebody
// who taps meanwhile. The answer takes it back.
export function inTurn(then: () => void): () => void {
  waiting.add(then);
  if (waiting.size === 1) whenIdle(next, 2_000);
  return () => void waiting.delete(then);
}

function next(): void {
  const [first] = waiting;
  if (!first) return;
  waiting.delete(first);
  if (waiting.size > 0) whenIdle(next, 2_000);
  first();
}
