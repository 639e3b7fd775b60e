import { call } from "../wire/call";
import type { Answer, Job, MethodName, Question } from "../wire/contract";
import { toFailure } from "../wire/failure";
import { alone } from "./alone";
import * as database from "./database";
import { type Draft, settle } from "./drafts";
import { Store } from "./store";

type Method = MethodName<"JobService">;

// Entry is one call that waits on the device until the service has acknowledged it. Its request id is in the question from the
// start, so that sending it twice records it once.
export type Entry = {
  place?: number;
  job: string; // "jobs/…": entries of one job go in order, and stop at one that is refused
  method: Method;
  question: unknown;
  says: string;
  made: string;
  refused?: string;
};

export const waiting = new Store<Entry[]>([]);
const arrivals = new Set<(entry: Entry, answer: unknown) => void>();

// onArrival tells of every entry that was acknowledged, with the answer.
export function onArrival(hear: (entry: Entry, answer: unknown) => void): () => void {
  arrivals.add(hear);
  return () => arrivals.delete(hear);
}

export const newRequestId = () => crypto.randomUUID?.() ?? [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

async function look(): Promise<void> {
  const entries = await database.readAll<Entry>("waiting");
  waiting.set(entries);
  mark(entries.length > 0);
}

// mark tells the next visit, before it can look into the database, whether something waits (see ask.js).
function mark(waits: boolean): void {
  try {
    if (waits) localStorage.setItem("unsent", "yes");
    else localStorage.removeItem("unsent");
  } catch {
    // then it is not told
  }
}

// mayWait says, before loaded has settled, whether something may have waited from the last time.
export function mayWait(): boolean {
  try {
    return localStorage.getItem("unsent") !== null;
  } catch {
    return true;
  }
}

// post puts a call in the outbox. When it returns, the call is on disk; it is sent as soon as that can be. A change of the job's
// draft that goes with it is written in the same step, so that nothing is recorded twice or lost in between.
export async function post<M extends Method>(
  job: string,
  method: M,
  question: Question<"JobService", M>,
  says: string,
  settled?: (draft: Draft) => Draft,
): Promise<void> {
  const entry: Entry = { job, method, question, says, made: new Date().toISOString() };
  mark(true);
  await (settled ? database.appendWith(entry, job, settle(job, settled)) : database.append(entry));
  await look();
  void send();
}

const patience = 5_000; // ms

// withdraw takes back an entry that was not sent, and says whether it could. One that is being sent is waited for, since it may be on
// record already.
export async function withdraw(entry: Entry): Promise<boolean> {
  const gone = await alone(async () => {
    if (!(await stillWaits(entry))) return false;
    await database.remove("waiting", entry.place as number);
    await look();
    return true;
  }, patience);
  void send(); // what stood behind it
  return gone ?? false;
}

async function stillWaits(entry: Entry): Promise<boolean> {
  await look();
  return waiting.now.some((e) => e.place === entry.place);
}

// requestOf is the request id that an entry is sent with.
export const requestOf = (entry: Entry): string => (entry.question as { entry?: { request_id?: string } }).entry?.request_id ?? "";

// tryAgain sends a refused entry once more.
export async function tryAgain(entry: Entry): Promise<void> {
  await alone(async () => {
    const { refused: _, ...rest } = entry;
    if (await stillWaits(entry)) await database.replace(rest);
    await look();
  });
  void send();
}

let first: Promise<void> | undefined;

// loaded settles once the page knows what waited from the last time. It looks when it is first asked, and not when the script is read,
// since opening the database holds up a slow phone that has yet to draw its screen.
export function loaded(): Promise<void> {
  first ??= look().catch(() => undefined);
  return first;
}

let pause = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let sending = false;
let again = false;

// send works the outbox off, one entry after the other. Nothing is taken back while it is under way, and no other window sends it too.
export async function send(): Promise<void> {
  if (sending) {
    again = true;
    return;
  }
  sending = true;
  clearTimeout(timer);
  try {
    while (await alone(sendNext));
  } finally {
    sending = false;
  }
  if (again) {
    again = false;
    void send();
  }
}

// sendNext sends the first entry that may go, and says whether another one may follow.
async function sendNext(): Promise<boolean> {
  await look();
  const held = new Set<string>();
  const next = waiting.now.find((e) => {
    if (e.refused) held.add(e.job);
    return !held.has(e.job);
  });
  if (next) return deliver(next);
  pause = 0;
  return false;
}

// deliver sends one entry and says whether to go on.
async function deliver(entry: Entry): Promise<boolean> {
  let answer: Answer<"JobService", Method>;
  try {
    answer = await call("JobService", entry.method, entry.question as Question<"JobService", Method>);
  } catch (thrown) {
    const failure = toFailure(thrown);
    if (failure.passes) {
      pause = Math.min(30_000, Math.max(1_000, pause * 2));
      timer = setTimeout(() => void send(), pause);
      return false;
    }
    await database.replace({ ...entry, refused: failure.message });
    await look();
    return true;
  }
  pause = 0;
  await keepAnswer(answer);
  if (entry.place !== undefined) await database.remove("waiting", entry.place);
  await look();
  for (const hear of arrivals) hear(entry, answer);
  return true;
}

// keepAnswer puts the job away as the service has it now, before its entry is let go.
async function keepAnswer(answer: unknown): Promise<void> {
  const job = (answer as { job?: Job }).job ?? (answer as Job);
  if (job?.name?.startsWith("jobs/")) await database.put("kept", job.name, job);
}
