import { useState } from "preact/hooks";
import { finishJob, handOver } from "../job/record";
import { isClosed, isOver, linesOf } from "../job/ticks";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { phrase } from "../words/phrase";
import type { Ready } from "./jobframe";

// Ending says that the work is done, and then that the owner has the vehicle.
export function Ending({ job }: { job: Ready }) {
  const [note, write] = useState("");
  const open = (job.job?.panels ?? []).flatMap((p) => linesOf(p, job.mine)).filter((l) => !isOver(l)).length;
  const finishing = job.mine.some((e) => e.method === "finishJob" || e.method === "handOverJob");
  if (isClosed(job.job)) return null;
  if (finishing) return <Mark shape="wait">{phrase("Waits to be sent")}</Mark>;
  const finished = job.job?.stage === "JOB_STAGE_FINISHED";
  return (
    <section class="band" aria-labelledby="ending">
      <h2 id="ending">{finished ? phrase("Hand over") : phrase("End of the work")}</h2>
      {!finished && open > 0 ? (
        <p>{phrase("{n} {n|step is|steps are} open. Tick off what is done, or leave it out with a reason.", { n: open })}</p>
      ) : (
        <>
          <TextEntry
            label={finished ? phrase("Advice on care") : phrase("What was left on purpose, and why")}
            value={note}
            onSet={write}
            most={2000}
            lines={3}
            hint={phrase("May be left empty.")}
          />
          <button
            type="button"
            class="main"
            onClick={() => {
              void (finished ? handOver(job.name, note.trim()) : finishJob(job.name, note.trim())).then(() => write(""));
            }}
          >
            {finished ? phrase("Handed over") : phrase("The work is finished")}
          </button>
        </>
      )}
    </section>
  );
}
