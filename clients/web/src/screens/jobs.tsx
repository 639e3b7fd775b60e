import { useEffect, useState } from "preact/hooks";
import { allDrafts, type Draft } from "../device/drafts";
import { loaded, waiting } from "../device/outbox";
import { useStore } from "../device/store";
import { type Filter, filterWords, useJobs } from "../job/list";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { partOf, to } from "../route";
import { day } from "../words/day";
import { phrase } from "../words/phrase";
import { word } from "../words/word";
import { JobFilter } from "./jobfilter";

const shapes: Record<string, "go" | "half" | "done" | "wait" | "stop"> = {
  JOB_STAGE_BOOKED: "wait",
  JOB_STAGE_INSPECTED: "half",
  JOB_STAGE_TRIAL: "half",
  JOB_STAGE_PLANNED: "go",
  JOB_STAGE_IN_WORK: "go",
  JOB_STAGE_FINISHED: "done",
  JOB_STAGE_HANDED_OVER: "done",
  JOB_STAGE_CANCELLED: "stop",
};

// Jobs is where a working day starts.
export function Jobs() {
  const [filter, set] = useState<Filter>({ stages: "all", vehicle: "" });
  const { jobs, more, failure, known, again, loadMore, loading } = useJobs(filter);
  const [drafts, setDrafts] = useState<Draft[]>([]);
  useEffect(
    () =>
      void Promise.all([allDrafts(), loaded()]).then(
        ([all]) => setDrafts(all.filter((d) => !d.correcting)),
        () => undefined,
      ),
    [],
  );
  const plain = filter.stages === "all" && filter.vehicle === "";
  const here = plain ? drafts.filter((d) => !jobs.some((j) => j.name === d.job)) : [];
  const unsent = new Set(useStore(waiting).flatMap((e) => (e.method === "createJob" ? [e.job] : [])));
  const nowhere = failure && !failure.passes;
  return (
    <>
      <div class="heading">
        <h1>{phrase("Jobs")}</h1>
        {!nowhere && (
          <a class="button main" href={to("new")}>
            {phrase("New job")}
          </a>
        )}
      </div>
      {failure && !known && (
        <Trouble failure={failure} again={again}>
          {nowhere && <p>{phrase("The class room and the rules work without a record of jobs.")}</p>}
        </Trouble>
      )}
      {known && (jobs.length > 1 || !plain) && <JobFilter filter={filter} onSet={set} />}
      <ul class="plain cards">
        {here.map((d) => (
          <JobCard key={d.job} name={d.job} title={d.vehicleLabel} label={d.label} stage="" when="" unsent={unsent.has(d.job)} />
        ))}
        {jobs.map((j) => (
          <JobCard
            key={j.name}
            name={j.name ?? ""}
            title={j.vehicle_label || partOf(j.vehicle ?? "")}
            label={j.label ?? ""}
            stage={j.stage ?? ""}
            when={day(j.book_time ?? j.create_time)}
          />
        ))}
      </ul>
      {known && jobs.length + here.length === 0 && (
        <p class="empty">
          {plain
            ? phrase("No job yet. Start one when a vehicle comes in; it also works without a network.")
            : phrase("No job is {stages}.", { stages: filterWords(filter) })}
        </p>
      )}
      {more && (
        <div class="actions">
          <button type="button" disabled={loading} onClick={() => void loadMore()}>
            {phrase("More jobs")}
          </button>
          <span class="hint" role="status">
            {phrase("{n} are shown, the newest first.", { n: jobs.length })}
          </span>
        </div>
      )}
      {failure && known && !plain && <p class="hint">{phrase("Not reached: the choice is made among the jobs that are on this device.")}</p>}
    </>
  );
}

type Card = { name: string; title: string; label: string; stage: string; when: string; unsent?: boolean };

function JobCard({ name, title, label, stage, when, unsent }: Card) {
  return (
    <li>
      <a class="card link" href={to("job", partOf(name))}>
        <b>{title || phrase("Vehicle without a name")}</b>
        <span class="soft">{[label, when].filter(Boolean).join(" · ")}</span>
        <Mark shape={shapes[stage] ?? "wait"}>{word(stage, "JOB_STAGE") || (unsent ? phrase("only on this device") : phrase("also on this device"))}</Mark>
      </a>
    </li>
  );
}
