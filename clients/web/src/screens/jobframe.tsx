import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { undo } from "../device/drafts";
import { type Opened, useJob } from "../job/job";
import { useLive } from "../job/live";
import { isClosed } from "../job/ticks";
import { later } from "../parts/later";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { PlanScreen } from "../plan/planscreen";
import { to } from "../route";
import { vehicle } from "../titled";
import { phrase } from "../words/phrase";
import { word } from "../words/word";
import { Advice } from "./advice";
import { Inspect } from "./inspect";
import { PanelSheet } from "./panelsheet";
import { Read } from "./read";
import { RecordSheet } from "./recordsheet";
import { TestSpot } from "./testspot";
import { Work } from "./work";

export { Outbox } from "./outbox";

// The stops of a job, with the screens that belong to each.
const stops = (): [string, string, string[]][] => [
  ["inspect", phrase("Inspect"), []],
  ["advice", phrase("Advice"), []],
  ["trial", phrase("Test spot"), []],
  ["plan", phrase("Plan"), ["bay"]],
  ["work", phrase("Work"), []],
  ["record", phrase("Record"), []],
];

const FitScreen = later(() => import("../plan/fit").then((m) => m.FitScreen));
const BayScreen = later(() => import("../bay/bayscreen").then((m) => m.BayScreen));
const Details = later(() => import("../jobedit/details").then((m) => m.Details));
const Events = later(() => import("../correct/events").then((m) => m.Events));
const Correcting = later(() => import("../correct/correcting").then((m) => m.Correcting));

export type Ready = Opened & { draft: NonNullable<Opened["draft"]>; id: string };

// JobScreens are the screens of one job, in the order of the work. An id with "~" is that of a correction being entered.
export function JobScreens({ place: [id = "", stop = "inspect", ...rest] }: { place: string[] }) {
  return id.includes("~") ? <Correcting key={id} id={id} stop={stop} place={rest} /> : <OneJob id={id} stop={stop} rest={rest} />;
}

function OneJob({ id, stop, rest }: { id: string; stop: string; rest: string[] }) {
  const opened = useJob(`jobs/${id}`);
  useLive(opened.draft && opened.job, opened.refresh);
  useEffect(() => vehicle.set(opened.draft?.vehicleLabel ?? ""), [opened.draft?.vehicleLabel]);
  if (!opened.draft)
    return (
      <>
        <h1>{phrase("Job")}</h1>
        {opened.failure ? <Trouble failure={opened.failure} again={opened.refresh} /> : <p role="status">{phrase("Opening the job …")}</p>}
      </>
    );
  const job = { ...opened, draft: opened.draft, id };
  if (stop === "read") return <Read job={job} place={rest} />;
  const label = job.job?.label ?? job.draft.label;
  return (
    <>
      <div class="heading job">
        <h1>
          {job.draft.vehicleLabel}
          {label && <small> {label}</small>}
        </h1>
        <p class="soft">
          {job.job ? word(job.job.stage, "JOB_STAGE") : phrase("only on this device so far")}{" "}
          <a class="button quiet" href={to("job", id, "details")} aria-current={stop === "details" || stop === "events" ? "page" : undefined}>
            {phrase("Details")}
          </a>
        </p>
      </div>
      <Cancelled job={job} />
      <nav class="stops" aria-label={phrase("Job")} ref={showCurrent}>
        {stops().map(([name, says, more]) => (
          <a key={name} href={to("job", id, name)} aria-current={stop === name || more.includes(stop) ? "page" : undefined}>
            {says}
          </a>
        ))}
      </nav>
      {stopScreen(job, stop, rest)}
    </>
  );
}

// Where the stops are wider than the screen, the present one is brought into sight.
const showCurrent = (nav: HTMLElement | null): void => {
  const here = nav?.querySelector<HTMLElement>("[aria-current]");
  if (nav && here) nav.scrollLeft = here.offsetLeft - (nav.clientWidth - here.offsetWidth) / 2;
};

// Cancelled says on every screen of a job that it was ended early, or is about to be.
function Cancelled({ job }: { job: Ready }) {
  const waits = job.mine.some((e) => e.method === "cancelJob");
  if (!waits && job.job?.stage !== "JOB_STAGE_CANCELLED") return null;
  return (
    <div class="band warn">
      <Mark shape="stop">{waits && !isClosed(job.job) ? phrase("Cancelled on this device; it waits to be sent") : phrase("This job was cancelled")}</Mark>
      <p>
        {phrase("What was taken off until then counts. Nothing more is recorded in it, except corrections.")}{" "}
        <a href={to("job", job.id, "details")}>{phrase("Why")}</a>
      </p>
    </div>
  );
}

function stopScreen(job: Ready, stop: string, rest: string[]): ComponentChildren {
  switch (stop) {
    case "advice":
      return <Advice job={job} />;
    case "trial":
      return <TestSpot job={job} panel={rest[0]} />;
    case "plan":
      return rest[0] === "fit" ? <FitScreen job={job} /> : <PlanScreen job={job} />;
    case "bay":
      return <BayScreen job={job} />;
    case "details":
      return <Details job={job} />;
    case "events":
      return <Events job={job} />;
    case "work":
      return <Work job={job} />;
    case "record":
      return <RecordSheet job={job} />;
  }
  return rest[0] ? <PanelSheet key={rest[0]} job={job} panel={rest[0]} /> : <Inspect job={job} />;
}

export function undoIn(job: string): void {
  const did = undo(job);
  if (did) say(phrase("Undone: {what}", { what: did }));
}
