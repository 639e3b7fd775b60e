import { newRequestId, post } from "../device/outbox";
import type { Job, VehicleRecord } from "../wire/contract";
import { phrase } from "../words/phrase";

// A mask names the fields that a person changed and no other, so that what somebody else changed meanwhile stays. It is written as
// JSON has it: "label,builtYear".
const masked = (fields: string[]): string => fields.map((f) => f.replace(/_([a-z])/g, (_, c: string) => c.toUpperCase())).join(",");

// updateJob changes details of a job. The etag goes along where it is fresh and nothing else of this device comes before it: each event
// of the job changes it, and a change that waits for a network must not be refused because somebody ticked a step off.
export const updateJob = (name: string, etag: string | undefined, next: Partial<Job>) =>
  post(
    name,
    "updateJob",
    { job: { ...next, name, ...(etag ? { etag } : {}) }, update_mask: masked(Object.keys(next)), request_id: newRequestId() },
    phrase("details of the job"),
  );

export const updateVehicle = (job: string, vehicle: string, etag: string | undefined, next: Partial<VehicleRecord>) =>
  post(
    job,
    "updateVehicle",
    { vehicle: { ...next, name: vehicle, ...(etag ? { etag } : {}) }, update_mask: masked(Object.keys(next)), request_id: newRequestId() },
    phrase("record of the vehicle"),
  );
