import * as database from "../device/database";
import { type Draft, openDraft, pageOf, startDraft } from "../device/drafts";
import { loaded, mayWait, waiting } from "../device/outbox";
import { Store } from "../device/store";
import { call } from "../wire/call";
import type { Inspection, Job } from "../wire/contract";
import { planComes } from "./firstplan";
import { plain } from "./plain";

const jobs = new Map<string, Store<Job | undefined>>();

export function jobStore(name: string): Store<Job | undefined> {
  const store = jobs.get(name) ?? new Store<Job | undefined>(undefined);
  jobs.set(name, store);
  return store;
}

// keepJob puts a job away as the service has it now, and draws it.
export async function keepJob(job: Job): Promise<Job> {
  if (!job.name) return job;
  jobStore(job.name).set(job);
  await database.put("kept", job.name, job);
  return job;
}

// draftFrom begins a draft from a job that was begun elsewhere.
function draftFrom(job: Job): Draft {
  const whole = plain(job.whole ?? {});
  const inspection: Inspection = { ...whole, panels: (job.panels ?? []).flatMap((p) => (p.found ? [plain(p.found)] : [])) };
  return {
    job: job.name ?? "",
    label: job.label ?? "",
    vehicle: job.vehicle ?? "",
    vehicleLabel: whole.vehicle?.label ?? "",
    inspection,
    recorded: job.panels?.length ? JSON.stringify(inspection) : undefined,
    trials: {},
  };
}

const isUnsent = (name: string) => waiting.now.some((e) => e.job === name && e.method === "createJob");

// open brings a job from the device, and as the service has it now, with its plan where that is what somebody wants to see. One that
// the service does not know yet is not asked for. One that this device knows nothing of begins as the service has it.
async function open(name: string, withPlan: boolean): Promise<void> {
  if (mayWait()) await loaded();
  const asked = isUnsent(name) ? undefined : call("JobService", "getJob", { name, ...(withPlan ? { with_work_plan: true } : {}) });
  asked?.catch(() => undefined); // told below
  if (asked && withPlan) planComes(name, asked);
  const old = await database.read<Job>("kept", name);
  if (old && !jobStore(name).now) jobStore(name).set(old);
  const draft = await openDraft(name); // with which the screens begin, and then know what is on record
  if (!asked) return;
  const { work_plan: _, ...job } = await asked;
  const started = draft || pageOf(name).now ? undefined : startDraft(draftFrom(job));
  await Promise.all([keepJob(job), started]);
}

let begun: { name: string; done: Promise<void> } | undefined;

// beginOpening opens a job before the screens of a job have come; opening then goes on with that, once.
// ask.js asks in the same words.
export function beginOpening(name: string, stop: string): void {
  begun = { name, done: open(name, stop === "plan") };
  begun.done.catch(() => undefined); // whoever goes on with it tells
}

export function opening(name: string): Promise<void> {
  const done = begun?.name === name ? begun.done : open(name, false);
  begun = undefined;
  return done;
}
