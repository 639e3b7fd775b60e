import { useEffect, useState } from "preact/hooks";
import { allDrafts, type Draft } from "../device/drafts";
import { useKept } from "../device/kept";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { partOf, to } from "../route";
import { call } from "../wire/call";
import type { Job, VehicleRecord } from "../wire/contract";
import { day } from "../words/number";
import { word } from "../words/word";

type List = { jobs: Job[]; vehicles: VehicleRecord[]; more: boolean };

async function list(): Promise<List> {
  const [jobs, vehicles] = await Promise.all([call("JobService", "listJobs", { page_size: 100 }), call("JobService", "listVehicles", { page_size: 1000 })]);
  return { jobs: jobs.jobs ?? [], vehicles: vehicles.vehicles ?? [], more: !!jobs.next_page_token };
}

const shapes: Record<string, "go" | "half" | "done" | "wait" | "stop"> = {
  booked: "wait",
  inspected: "half",
  trial: "half",
  planned: "go",
  "in work": "go",
  finished: "done",
  "handed over": "done",
  cancelled: "stop",
};

// Jobs is where a working day starts.
export function Jobs() {
  const { value, failure, again } = useKept("list of jobs", list);
  const [drafts, set] = useState<Draft[]>([]);
  useEffect(() => void allDrafts().then(set, () => undefined), []);
  const labels = new Map(value?.vehicles.map((v) => [v.name, v.label]));
  const here = drafts.filter((d) => !value?.jobs.some((j) => j.name === d.job));
  const nowhere = failure && !failure.passes;
  return (
    <>
      <div class="heading">
        <h1>Jobs</h1>
        {!nowhere && (
          <a class="button main" href={to("new")}>
            New job
          </a>
        )}
      </div>
      {failure && !value && (
        <Trouble failure={failure} again={again}>
          {nowhere && <p>The class room and the rules work without a record of jobs.</p>}
        </Trouble>
      )}
      <ul class="plain cards">
        {here.map((d) => (
          <JobCard key={d.job} name={d.job} title={d.vehicleLabel} label={d.label} stage="only on this device" when="" />
        ))}
        {value?.jobs.map((j) => (
          <JobCard
            key={j.name}
            name={j.name ?? ""}
            title={labels.get(j.vehicle ?? "") ?? partOf(j.vehicle ?? "")}
            label={j.label ?? ""}
            stage={word(j.stage, "JOB_STAGE")}
            when={day(j.book_time ?? j.create_time)}
          />
        ))}
      </ul>
      {value && value.jobs.length + here.length === 0 && <p class="empty">No job yet. Start one when a vehicle comes in; it also works without a network.</p>}
      {value?.more && <p class="hint">The newest hundred are shown.</p>}
    </>
  );
}

function JobCard({ name, title, label, stage, when }: { name: string; title: string; label: string; stage: string; when: string }) {
  return (
    <li>
      <a class="card link" href={to("job", partOf(name))}>
        <b>{title || "Vehicle without a name"}</b>
        <span class="soft">{[label, when].filter(Boolean).join(" · ")}</span>
        <Mark shape={shapes[stage] ?? "wait"}>{stage}</Mark>
      </a>
    </li>
  );
}
