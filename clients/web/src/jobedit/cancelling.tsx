import { useState } from "preact/hooks";
import { cancelJob } from "../job/record";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say } from "../parts/notice";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";

// Cancelling ends a job early, with why.
export function Cancelling({ job }: { job: Ready }) {
  const [why, write] = useState("");
  const [asked, ask] = useState(false);
  const waits = job.mine.some((e) => e.method === "cancelJob");
  return (
    <section class="card" aria-labelledby="cancelling">
      <h2 id="cancelling">{phrase("Cancel the job")}</h2>
      {waits ? (
        <Mark shape="wait">{phrase("Waits to be sent")}</Mark>
      ) : !asked ? (
        <button type="button" onClick={() => ask(true)}>
          {phrase("Cancel this job …")}
        </button>
      ) : (
        <>
          <p>{phrase("The job ends early. What was taken off until now counts, and its bay time is struck out of calendars.")}</p>
          <TextEntry label={phrase("Why the job is cancelled")} value={why} onSet={write} most={2000} lines={2} />
          <div class="actions">
            <button
              type="button"
              class="danger"
              disabled={why.trim() === ""}
              onClick={() => void cancelJob(job.name, why.trim()).then(() => say(phrase("Cancelled; it is sent when the service is reached.")))}
            >
              {phrase("Cancel the job")}
            </button>
            <button type="button" class="quiet" onClick={() => ask(false)}>
              {phrase("Go on with the job")}
            </button>
          </div>
        </>
      )}
    </section>
  );
}
