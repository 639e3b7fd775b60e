import { useState } from "preact/hooks";
import { change } from "../device/drafts";
import { reach } from "../device/reach";
import { isClosed } from "../job/ticks";
import { WordChoice } from "../parts/choice";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say } from "../parts/notice";
import { When } from "../parts/when";
import { to } from "../route";
import type { Ready } from "../screens/jobframe";
import type { Job } from "../wire/contract";
import { phrase } from "../words/phrase";
import { updateJob } from "./change";

// JobForm changes what a job is called, its notes, and when the vehicle is expected.
export function JobForm({ job }: { job: Ready }) {
  const now = { label: job.job?.label ?? job.draft.label, notes: job.job?.notes ?? "", book_time: job.job?.book_time };
  const [label, name] = useState(now.label);
  const [notes, write] = useState(now.notes);
  const [book_time, expect] = useState(now.book_time);
  const next: Partial<Job> = {
    ...(label.trim() !== now.label ? { label: label.trim() } : {}),
    ...(notes.trim() !== now.notes ? { notes: notes.trim() } : {}),
    ...(book_time !== now.book_time ? { book_time } : {}),
  };
  const waits = job.mine.some((e) => e.method === "updateJob");
  const keep = async () => {
    await updateJob(job.name, job.mine.length === 0 && reach.now === "reached" ? job.job?.etag : undefined, next);
    say(phrase("Details kept; they are sent when the service is reached."));
  };
  return (
    <form
      class="card"
      aria-labelledby="job-form"
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      <h2 id="job-form">{phrase("The job")}</h2>
      <TextEntry label={phrase("What to call the visit")} value={label} onSet={name} most={100} />
      <TextEntry label={phrase("Notes for the shop")} value={notes} onSet={write} most={2000} lines={4} hint={phrase("No personal data.")} />
      <When label={phrase("When the vehicle is expected")} value={book_time} onSet={expect} hint={phrase("Empty: not agreed.")} />
      {waits && <Mark shape="wait">{phrase("A change waits on this device")}</Mark>}
      <div class="actions">
        <button type="submit" class="main" disabled={Object.keys(next).length === 0 || waits}>
          {phrase("Keep the details")}
        </button>
      </div>
      <Goal job={job} />
    </form>
  );
}

// Goal is part of what was found: it goes on record with the inspection, and by a correction once it is there.
function Goal({ job }: { job: Ready }) {
  const level = job.draft.inspection.goal?.level;
  const recorded = (job.job?.panels ?? []).length > 0;
  return (
    <>
      <h3>{phrase("Goal")}</h3>
      {!isClosed(job.job) && !recorded ? (
        <WordChoice
          label={phrase("What the owner wants")}
          fact="goal.level"
          prefix="GOAL_LEVEL"
          value={level}
          open={phrase("not asked yet")}
          onPick={(l) => change(job.name, phrase("goal"), (d) => ({ ...d, inspection: { ...d.inspection, goal: { ...d.inspection.goal, level: l } } }))}
        />
      ) : (
        <p>
          {phrase("The goal is on record with the inspection.")} <a href={to("job", job.id, "events")}>{phrase("Correct the inspection to change it")}</a>
        </p>
      )}
    </>
  );
}
