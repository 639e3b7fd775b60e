import { newRequestId } from "../device/outbox";
import { keepJob } from "../job/opening";
import { call } from "../wire/call";
import type { BayBlock, Question } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";

type What = { work: NonNullable<Question<"BookingService", "bookBay">["work"]> } | { blocks: { blocks: BayBlock[] } };
export type Booking = { bay: string; allow_overlap?: boolean } & What;

// Bay time is only worth something once the service has agreed to it, so it is not put in the outbox: it is asked for on the spot.
// A booking that got no answer keeps its request id, so that asking for the same again books it once.
let open: { what: string; id: string } | undefined;

// book asks for bay time and says why not, where that is so.
export async function book(job: string, booking: Booking): Promise<Failure | undefined> {
  const what = JSON.stringify([job, booking]);
  if (open?.what !== what) open = { what, id: newRequestId() };
  try {
    const done = await call("BookingService", "bookBay", { name: job, entry: { request_id: open.id }, ...booking });
    open = undefined;
    if (done.job) await keepJob(done.job);
    return undefined;
  } catch (thrown) {
    const failure = toFailure(thrown);
    if (!failure.passes) open = undefined;
    return failure;
  }
}

// free gives the bay time of a job back.
export async function free(job: string, etag: string | undefined): Promise<Failure | undefined> {
  try {
    await keepJob(await call("JobService", "updateJob", { job: { name: job, etag }, update_mask: "bay", request_id: newRequestId() }));
    return undefined;
  } catch (thrown) {
    return toFailure(thrown);
  }
}

// said is what the service says about one field, its own words.
export const said = (failure: Failure | undefined, ...fields: string[]): string | undefined =>
  failure?.violations.find((v) => fields.some((f) => v.field === f || v.field.startsWith(`${f}.`) || v.field.startsWith(`${f}[`)))?.description;
