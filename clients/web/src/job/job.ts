import { useEffect, useState } from "preact/hooks";
import * as database from "../device/database";
import { change, type Draft, openDraft, pageOf, startDraft } from "../device/drafts";
import { type Entry, loaded, onArrival, waiting } from "../device/outbox";
import { Store, useStore } from "../device/store";
import { call } from "../wire/call";
import type { Correction, Inspection, Job, JobEvent, VehicleRecord } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { settleCorrection } from "./corrected";
import { settleMeasured } from "./measured";
import { plain } from "./plain";

const jobs = new Map<string, Store<Job | undefined>>();

export function jobStore(name: string): Store<Job | undefined> {
  const store = jobs.get(name) ?? new Store<Job | undefined>(undefined);
  jobs.set(name, store);
  return store;
}

onArrival((entry, answer) => {
  const job = (answer as { job?: Job }).job ?? (answer as Job);
  if (job?.name?.startsWith("jobs/")) jobStore(job.name).set(job);
  if (entry.method === "correctEvent") void settleCorrection(entry.job, (entry.question as { correction?: Correction }).correction ?? {}, job);
  if (entry.method === "recordPlan" && job?.name) void settleMeasured(entry.job, job);
  if (entry.method === "updateVehicle") void renameVehicle(entry.job, (answer as VehicleRecord).label);
});

async function renameVehicle(job: string, label: string | undefined): Promise<void> {
  if (label && (await openDraft(job))) change(job, "", (d) => ({ ...d, vehicleLabel: label }));
}

// keepJob puts a job away as the service has it now, and draws it.
export async function keepJob(job: Job): Promise<Job> {
  if (!job.name) return job;
  jobStore(job.name).set(job);
  await database.put("kept", job.name, job);
  return job;
}

const fetchJob = async (name: string): Promise<Job> => keepJob(await call("JobService", "getJob", { name }));

// eventsOf gives everything that happened in a job, in order.
export async function eventsOf(name: string): Promise<JobEvent[]> {
  const events: JobEvent[] = [];
  let token: string | undefined;
  do {
    const page = await call("JobService", "listJobEvents", { parent: name, page_size: 1000, ...(token ? { page_token: token } : {}) });
    events.push(...(page.events ?? []));
    token = page.next_page_token;
  } while (token);
  return events;
}

// inspectionOf puts together what holds now of what was found, from a job that was inspected elsewhere.
function inspectionOf(job: Job, events: JobEvent[]): Inspection {
  let last: Inspection = {};
  for (const e of events) last = e.correction?.inspection ?? (e.corrected_by && e.corrected_by !== "0" ? last : (e.inspection ?? last));
  return { ...last, panels: (job.panels ?? []).flatMap((p) => (p.found ? [plain(p.found)] : [])) };
}

async function draftFrom(job: Job): Promise<Draft> {
  const name = job.name ?? "";
  const [events, vehicle] = await Promise.all([eventsOf(name), call("JobService", "getVehicle", { name: job.vehicle ?? "" }).catch(() => undefined)]);
  const paint = vehicle?.paint ? plain(vehicle.paint) : undefined;
  const found = plain(inspectionOf(job, events));
  const inspection: Inspection = found.panels?.length ? found : { vehicle: { label: vehicle?.label, ...(paint ? { paint } : {}) }, panels: [] };
  return {
    job: name,
    label: job.label ?? "",
    vehicle: job.vehicle ?? "",
    vehicleLabel: vehicle?.label ?? "",
    inspection,
    recorded: job.panels?.length ? JSON.stringify(inspection) : undefined,
    trials: {},
  };
}

export type Opened = { name: string; draft?: Draft; canUndo: boolean; job?: Job; mine: Entry[]; failure?: Failure; refresh: () => void };

// useJob brings a job to the screen: what is entered on this device, and how it stands on record.
export function useJob(name: string): Opened {
  const page = useStore(pageOf(name));
  const job = useStore(jobStore(name));
  const mine = useStore(waiting).filter((e) => e.job === name);
  const [failure, set] = useState<Failure>();
  const [round, next] = useState(0);
  const unsent = mine.some((e) => e.method === "createJob");
  useEffect(() => {
    let gone = false;
    void (async () => {
      await loaded();
      const draft = await openDraft(name);
      const old = await database.read<Job>("kept", name);
      if (old && !jobStore(name).now) jobStore(name).set(old);
      if (waiting.now.some((e) => e.job === name && e.method === "createJob")) return; // the service does not know it yet
      try {
        const fresh = await fetchJob(name);
        if (!draft && !pageOf(name).now) await startDraft(await draftFrom(fresh));
        if (!gone) set(undefined);
      } catch (thrown) {
        if (!gone) set(toFailure(thrown));
      }
    })();
    return () => {
      gone = true;
    };
  }, [name, round, unsent]);
  return { name, draft: page?.draft, canUndo: (page?.before.length ?? 0) > 0, job, mine, failure, refresh: () => next((n) => n + 1) };
}
