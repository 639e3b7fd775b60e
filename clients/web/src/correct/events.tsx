import { useEffect, useState } from "preact/hooks";
import { allDrafts, type Draft } from "../device/drafts";
import { useKept } from "../device/kept";
import { eventsOf } from "../job/job";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { partOf, to } from "../route";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";
import { EventCard } from "./eventcard";

// Events is all that happened in a job, the newest first, with what was corrected and why.
export function Events({ job }: { job: Ready }) {
  const { value, failure, again } = useKept(job.job ? `events ${job.name}` : undefined, () => eventsOf(job.name), [job.job?.last_sequence]);
  const [begun, set] = useState<Draft[]>([]);
  useEffect(
    () =>
      void allDrafts().then(
        (all) => set(all.filter((d) => d.correcting?.job === job.name)),
        () => undefined,
      ),
    [job.job?.last_sequence],
  );
  const events = value ?? [];
  const corrections = job.mine.filter((e) => e.method === "correctEvent");
  return (
    <>
      <div class="heading">
        <h2>{phrase("What happened, and corrections")}</h2>
        <a class="button quiet" href={to("job", job.id, "details")}>
          {phrase("Details")}
        </a>
      </div>
      <p class="hint">{phrase("Nothing recorded is ever overwritten. A correction stands beside what it corrects and says why.")}</p>
      {!job.job && <p class="empty">{phrase("There is nothing on record yet.")}</p>}
      <Trouble failure={failure} again={again} />
      {corrections.length > 0 && (
        <div class="band">
          <Mark shape="wait">{phrase("{n} {n|correction waits|corrections wait} on this device", { n: corrections.length })}</Mark>
        </div>
      )}
      {begun
        .filter((d) => !corrections.some((e) => (e.question as { correction?: { sequence?: string } }).correction?.sequence === d.correcting?.sequence))
        .map((d) => (
          <div key={d.job} class="band">
            <p>
              {phrase("A correction of event {n} was begun.", { n: d.correcting?.sequence ?? "" })}{" "}
              <a href={to("job", partOf(d.job), "correct")}>{phrase("Go on with it")}</a>
            </p>
          </div>
        ))}
      <ul class="plain cards one">
        {events.toReversed().map((e) => (
          <EventCard key={e.sequence} job={job} event={e} all={events} />
        ))}
      </ul>
    </>
  );
}
