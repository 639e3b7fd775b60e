import type { ComponentChildren } from "preact";
import { undo } from "../device/drafts";
import { type Opened, useJob } from "../job/job";
import { say, Trouble } from "../parts/notice";
import { to } from "../route";
import { word } from "../words/word";
import { Advice } from "./advice";
import { Inspect } from "./inspect";
import { PanelSheet } from "./panelsheet";
import { Read } from "./read";
import { RecordSheet } from "./recordsheet";
import { TestSpot } from "./testspot";
import { Work } from "./work";

const stops = [
  ["inspect", "Inspect"],
  ["advice", "Advice"],
  ["trial", "Test spot"],
  ["work", "Work"],
  ["record", "Record"],
] as const;

export type Ready = Opened & { draft: NonNullable<Opened["draft"]>; id: string };

// JobScreens are the screens of one job, in the order of the work.
export function JobScreens({ place: [id = "", stop = "inspect", ...rest] }: { place: string[] }) {
  const opened = useJob(`jobs/${id}`);
  if (!opened.draft) return opened.failure ? <Trouble failure={opened.failure} again={opened.refresh} /> : <p role="status">Opening the job …</p>;
  const job = { ...opened, draft: opened.draft, id };
  if (stop === "read") return <Read job={job} place={rest} />;
  return (
    <>
      <div class="heading job">
        <h1>
          {job.draft.vehicleLabel}
          {job.draft.label && <small> {job.draft.label}</small>}
        </h1>
        <p class="soft">{job.job ? word(job.job.stage, "JOB_STAGE") : "only on this device so far"}</p>
      </div>
      <nav class="stops" aria-label="Job">
        {stops.map(([name, says]) => (
          <a key={name} href={to("job", id, name)} aria-current={stop === name ? "page" : undefined}>
            {says}
          </a>
        ))}
      </nav>
      {stopScreen(job, stop, rest)}
    </>
  );
}

function stopScreen(job: Ready, stop: string, rest: string[]): ComponentChildren {
  switch (stop) {
    case "advice":
      return <Advice job={job} />;
    case "trial":
      return <TestSpot job={job} panel={rest[0]} />;
    case "work":
      return <Work job={job} />;
    case "record":
      return <RecordSheet job={job} />;
  }
  return rest[0] ? <PanelSheet key={rest[0]} job={job} panel={rest[0]} /> : <Inspect job={job} />;
}

export function undoIn(job: string): void {
  const did = undo(job);
  if (did) say(`Undone: ${did}`);
}
