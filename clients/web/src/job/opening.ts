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

const answers = new Map<string, number>(); // how many have come, by job

// takeJob draws a job as the service has it now.
export function takeJob(job: Job): void {
  const name = job.name ?? "";
  answers.set(name, (answers.get(name) ?? 0) + 1);
  jobStore(name).set(job);
}

// keepJob puts it away too.
export async function keepJob(job: Job): Promise<Job> {
  if (!job.name) return job;
  takeJob(job);
  await database.put("kept", job.name, job);
  return job;
}

const isOlder = (job: Job, than: Job | undefined): boolean => Number(job.last_sequence ?? 0) < Number(than?.last_sequence ?? 0);

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
  const before = answers.get(name);
  asked?.catch(() => undefined); // told below
  if (asked && withPlan) planComes(name, asked);
  const kept = database.read<Job>("kept", name).then((old) => {
    if (old && !jobStore(name).now) jobStore(name).set(old);
  });
  const draft = await openDraft(name, kept); // with which the screens begin, and then know what is on record
  if (!asked) return;
  const { work_plan: _, ...job } = await asked;
  const started = draft || pageOf(name).now ? undefined : startDraft(draftFrom(job));
  // Answers may come in another order than the questions were asked in.
  const overtaken = answers.get(name) !== before && isOlder(job, jobStore(name).now);
  await Promise.all([overtaken ? undefined : keepJob(job), started]);
}

let begun: { name: string; done: Promise<void> } | undefined;

// comes settles once a job is there to be drawn.
function comes(name: string): Promise<true> {
  return new Promise((then) => {
    const page = pageOf(name);
    const stop = page.watch(() => {
      stop();
      then(true);
    });
  });
}

// beginOpening opens a job before anything is drawn; opening then goes on with that, once. It says whether the job is there to be
// drawn, as soon as that is known. ask.js asks in the same words.
export function beginOpening(name: string, stop: string): Promise<boolean> {
  const done = open(name, stop === "plan" || stop === "work");
  begun = { name, done };
  const isThere = () => pageOf(name).now !== undefined;
  return Promise.race([comes(name), done.then(isThere, isThere)]); // whoever goes on with it tells of a failure
}

export function opening(name: string): Promise<void> {
  const done = begun?.name === name ? begun.done : open(name, false);
  begun = undefined;
  return done;
}
