import type { Inspection, Progress, Readings, Trial, TrialRecord } from "../wire/contract";
import * as database from "./database";
import { Store } from "./store";

// Instead is what an event holds that can be corrected: one of the four.
export type Instead = { inspection?: Inspection; readings?: Readings; trial?: TrialRecord; progress?: Progress };

// Draft is what is being entered for one job. Every change is written to the device at once.
export type Draft = {
  job: string; // "jobs/…"
  label: string;
  vehicle: string; // "vehicles/…"
  vehicleLabel: string;
  inspection: Inspection;
  // The inspection as it was last put in the outbox, as text: when it differs, there is something to record.
  recorded?: string;
  // The one before that, for when the last is refused.
  before?: string;
  // The trial being entered, by panel.
  trials: Record<string, Trial>;
  // Readings taken while the panel is worked or after it, by panel.
  work?: Record<string, Readings>;
  // Areas that the shop measured in m², by panel, and who works, where it is otherwise than on record; null: not measured, not
  // said. They go on record with the plan.
  areas?: Record<string, number | null>;
  crew?: { people?: number | null; day_hours?: number | null };
  // The event that is being corrected: what held until now, and why it is wrong. Such a draft is kept beside the job's own, by its
  // name, "~" and the event's number.
  correcting?: { job: string; sequence: string; was: Instead; why: string; progress?: Progress };
};

type Page = { draft: Draft; before: { draft: Draft; did: string }[] };

const most = 60; // changes that can be undone
const pages = new Map<string, Store<Page | undefined>>();

export function pageOf(job: string): Store<Page | undefined> {
  const store = pages.get(job) ?? new Store<Page | undefined>(undefined);
  pages.set(job, store);
  return store;
}

// openDraft brings a draft from the device into the page, after something else where that is to be there first.
export async function openDraft(job: string, after?: Promise<unknown>): Promise<Draft | undefined> {
  const store = pageOf(job);
  if (!store.now) {
    const [page] = await Promise.all([database.read<Page>("drafts", job), after]);
    if (page && !store.now) store.set(page);
  }
  return store.now?.draft;
}

// startDraft begins one, or takes the place of one that has nothing to lose.
export async function startDraft(draft: Draft): Promise<void> {
  const page = { draft, before: [] };
  pageOf(draft.job).set(page);
  await database.put("drafts", draft.job, page);
}

// change makes the next state of a draft, keeps the one before for undo, and writes both to the device. did says in a few words
// what was done; empty: it cannot be undone.
export function change(job: string, did: string, next: (draft: Draft) => Draft): void {
  const store = pageOf(job);
  const now = store.now;
  if (!now) return;
  const draft = next(now.draft);
  if (draft === now.draft) return;
  const before = did ? [...now.before, { draft: now.draft, did }].slice(-most) : now.before;
  store.set({ draft, before });
  void database.put("drafts", job, { draft, before });
}

// settle makes a change that belongs to a call which is put in the outbox, and gives what is to be written with it. It cannot be
// undone.
export function settle(job: string, next: (draft: Draft) => Draft): unknown {
  const store = pageOf(job);
  if (!store.now) throw new Error(`nothing is being entered for ${job}`);
  store.set({ draft: next(store.now.draft), before: store.now.before });
  return store.now;
}

// undo goes back by one change and says what was undone.
export function undo(job: string): string {
  const store = pageOf(job);
  const last = store.now?.before.at(-1);
  if (!store.now || !last) return "";
  const page = { draft: { ...last.draft, recorded: store.now.draft.recorded }, before: store.now.before.slice(0, -1) };
  store.set(page);
  void database.put("drafts", job, page);
  return last.did;
}

export const allDrafts = async () => (await database.readAll<Page>("drafts")).map((page) => page.draft);

// dropDraft lets one go.
export async function dropDraft(job: string): Promise<void> {
  pageOf(job).set(undefined);
  await database.remove("drafts", job);
}

// isUnrecorded says whether the inspection holds something that was never put in the outbox.
export const isUnrecorded = (draft: Draft) => JSON.stringify(draft.inspection) !== draft.recorded;
