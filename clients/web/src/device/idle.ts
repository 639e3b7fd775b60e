// whenIdle does something once the device has nothing else to do, at the latest after so many ms.
export function whenIdle(then: () => void, latest: number): void {
  if ("requestIdleCallback" in window) requestIdleCallback(then, { timeout: latest });
  else setTimeout(then, 50);
}

const soon = new Set<() => void>();
const sometime = new Set<() => void>();
let asked = false;

// inTurn does small things one after the other, each when the device has nothing else to do, so that none of them holds up somebody
// who taps meanwhile; first those that are wanted soon. The answer takes it back.
export function inTurn(then: () => void, wantedSoon = false): () => void {
  const turns = wantedSoon ? soon : sometime;
  turns.add(then);
  askForNext();
  return () => void turns.delete(then);
}

function askForNext(): void {
  if (asked || soon.size + sometime.size === 0) return;
  asked = true;
  whenIdle(next, soon.size > 0 ? 200 : 2_000);
}

function next(): void {
  asked = false;
  const turns = soon.size > 0 ? soon : sometime;
  const [first] = turns;
  if (!first) return;
  turns.delete(first);
  askForNext();
  first();
}
