// alone does something while nothing else that is done alone goes on, here or in another window of this device, and each in the order
// in which it was asked for. Who is not willing to wait longer than so many ms gets undefined, and it is not done. Where a browser
// cannot arrange it between windows (some lend locks to no page without TLS), it holds within this one.
export async function alone<R>(work: () => Promise<R>, longest?: number): Promise<R | undefined> {
  const turn = { begun: false, missed: false };
  const now = async () => {
    if (turn.missed) return undefined;
    turn.begun = true;
    return work();
  };
  const done = navigator.locks ? navigator.locks.request("outbox", now) : queued(now);
  if (longest === undefined) return done;
  await Promise.race([done, new Promise((late) => setTimeout(late, longest))]);
  if (turn.begun) return done;
  turn.missed = true;
  return undefined;
}

let last: Promise<unknown> = Promise.resolve();

function queued<R>(work: () => Promise<R>): Promise<R> {
  const done = last.then(work);
  last = done.catch(() => undefined); // whoever asked is told
  return done;
}
