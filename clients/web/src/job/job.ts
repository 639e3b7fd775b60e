import { useLayoutEffect, useState } from "preact/hooks";
import { change, type Draft, openDraft, pageOf } from "../device/drafts";
import { type Entry, onArrival, waiting } from "../device/outbox";
import { useStore } from "../device/store";
import { call } from "../wire/call";
import type { Correction, Job, JobEvent, VehicleRecord } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { settleCorrection } from "./corrected";
import { settleMeasured } from "./measured";
import { jobStore, opening, takeJob } from "./opening";

onArrival((entry, answer) => {
  const job = (answer as { job?: Job }).job ?? (answer as Job);
  if (job?.name?.startsWith("jobs/")) takeJob(job);
  if (entry.method === "correctEvent") void settleCorrection(entry.job, (entry.question as { correction?: Correction }).correction ?? {}, job);
  if (entry.method === "recordPlan" && job?.name) void settleMeasured(entry.job, job);
  if (entry.method === "updateVehicle") void renameVehicle(entry.job, (answer as VehicleRecord).label);
});

async function renameVehicle(job: string, label: string | undefined): Promise<void> {
  if (label && (await openDraft(job))) change(job, "", (d) => ({ ...d, vehicleLabel: label }));
}

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

export type Opened = { name: string; draft?: Draft; canUndo: boolean; job?: Job; mine: Entry[]; failure?: Failure; refresh: () => void };

// useJob brings a job to the screen: what is entered on this device, and how it stands on record.
export function useJob(name: string): Opened {
  const page = useStore(pageOf(name));
  const job = useStore(jobStore(name));
  const mine = useStore(waiting).filter((e) => e.job === name);
  const [failure, set] = useState<Failure>();
  const [round, next] = useState(0);
  const unsent = mine.some((e) => e.method === "createJob");
  // Before the screen is painted, so that the service is asked at once.
  useLayoutEffect(() => {
    let gone = false;
    opening(name).then(
      () => gone || set(undefined),
      (thrown) => gone || set(toFailure(thrown)),
    );
    return () => {
      gone = true;
    };
  }, [name, round, unsent]);
  return { name, draft: page?.draft, canUndo: (page?.before.length ?? 0) > 0, job, mine, failure, refresh: () => next((n) => n + 1) };
}
