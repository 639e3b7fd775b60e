import { useKept } from "../device/kept";
import { eventsOf } from "../job/job";
import { isClosed } from "../job/ticks";
import { Mark } from "../parts/marks";
import { to } from "../route";
import type { Ready } from "../screens/jobframe";
import { moment } from "../words/clock";
import { phrase } from "../words/phrase";
import { word } from "../words/word";
import { Cancelling } from "./cancelling";
import { JobForm } from "./jobform";
import { VehicleForm } from "./vehicleform";

// Details is what a job is called and noted, its vehicle, and how it ends early.
export function Details({ job }: { job: Ready }) {
  const closed = isClosed(job.job);
  const cancelled = job.job?.stage === "JOB_STAGE_CANCELLED";
  return (
    <>
      <div class="actions">
        <a class="button" href={to("job", job.id, "events")}>
          {phrase("What happened, and corrections")}
        </a>
        <a class="button quiet" href={to("job", job.id, "bay")}>
          {phrase("Bay time")}
        </a>
      </div>
      {cancelled && <WhyCancelled job={job} />}
      <div class="split even">
        <JobForm key={`${job.job?.label} ${job.job?.notes} ${job.job?.book_time}`} job={job} />
        <div>
          <VehicleForm job={job} />
          <section class="card" aria-labelledby="stage">
            <h2 id="stage">{phrase("Stage")}</h2>
            <p>
              <b>{job.job ? word(job.job.stage, "JOB_STAGE") : phrase("only on this device so far")}</b>
              {job.job?.update_time && <span class="soft"> · {phrase("last recorded {time}", { time: moment(job.job.update_time) })}</span>}
            </p>
            <p class="hint">{phrase("It follows from what is recorded. To go back a stage, take back the event that led to it.")}</p>
          </section>
          {!closed && <Cancelling job={job} />}
        </div>
      </div>
    </>
  );
}

function WhyCancelled({ job }: { job: Ready }) {
  const { value } = useKept(`events ${job.name}`, () => eventsOf(job.name), [job.job?.last_sequence]);
  const event = value?.findLast((e) => e.cancelled && (!e.corrected_by || e.corrected_by === "0"));
  return (
    <div class="band warn">
      <Mark shape="stop">{phrase("Cancelled {time}", { time: moment(event?.happen_time ?? event?.record_time ?? job.job?.update_time) })}</Mark>
      <p>{event?.cancelled?.note ? phrase("Why: {why}", { why: event.cancelled.note }) : phrase("Nobody said why.")}</p>
      <p class="hint">{phrase("Cancelled by mistake? Take the cancelling back under “What happened, and corrections”.")}</p>
    </div>
  );
}
