import { useState } from "preact/hooks";
import { change, isUnrecorded } from "../device/drafts";
import { changedPanels, recordInspection } from "../job/record";
import { counted, panelOf, quantities } from "../job/sheet";
import { WordChoice } from "../parts/choice";
import { NumberEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { body, Outline } from "../parts/outline";
import { go, to } from "../route";
import type { Inspection } from "../wire/contract";
import type { Failure } from "../wire/failure";
import { panelName } from "../words/word";
import { type Ready, undoIn } from "./jobframe";
import { PaintEntry } from "./newjob";

// Inspect is the vehicle as a whole: what it is, the air, and every panel as a drawing and as a list.
export function Inspect({ job }: { job: Ready }) {
  const { draft } = job;
  const { inspection } = draft;
  const [refused, refuse] = useState<Failure>();
  const [refusedPanels, name] = useState<string[]>([]);
  const ids = [...new Set([...body.map((p) => p.id), ...(inspection.panels ?? []).map((p) => p.id ?? "")])];
  const edit = (did: string, next: (i: Inspection) => Inspection) => change(job.name, did, (d) => ({ ...d, inspection: next(d.inspection) }));
  const vehicle = inspection.vehicle ?? {};
  const climate = inspection.climate ?? {};
  const open = isUnrecorded(draft);
  const closed = ["JOB_STAGE_HANDED_OVER", "JOB_STAGE_CANCELLED"].includes(job.job?.stage ?? "");
  const record = async () => {
    const refused = await recordInspection(draft);
    name(changedPanels(draft).panels?.map((p) => p.id ?? "") ?? []);
    refuse(refused);
    if (refused) return;
    say("Inspection kept; it is sent when the service is reached.");
    go("job", job.id, "advice");
  };
  return (
    <div class="split">
      <section aria-labelledby="panels">
        <h2 id="panels">Panels</h2>
        <Outline looked={(id) => stateOf(job, id)} href={(id) => to("job", job.id, "inspect", id)} name={panelName} says={(id) => saysOf(job, id)} />
        <p class="key hint">
          <b>+</b> not looked at · <b>◔</b> begun · <b>✓</b> marks graded
        </p>
      </section>
      <div>
        <section aria-labelledby="list">
          <h2 id="list">As a list</h2>
          <ul class="plain rows">
            {ids.map((id) => (
              <li key={id}>
                <a href={to("job", job.id, "inspect", id)}>
                  <b>{panelName(id)}</b>
                  <span class="soft">{saysOf(job, id)}</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
        <details class="fold">
          <summary>Goal</summary>
          <WordChoice
            label="What the owner wants"
            fact="goal.level"
            prefix="GOAL_LEVEL"
            value={inspection.goal?.level}
            open="not asked yet"
            onPick={(level) => edit("goal", (i) => ({ ...i, goal: { ...i.goal, level } }))}
          />
          <WordChoice
            label="What goes on afterwards"
            fact="goal.protection"
            prefix="PROTECTION"
            value={inspection.goal?.protection}
            open="not asked yet"
            onPick={(protection) => edit("protection", (i) => ({ ...i, goal: { ...i.goal, protection } }))}
          />
        </details>
        <details class="fold">
          <summary>Paint of the vehicle</summary>
          <PaintEntry age paint={vehicle.paint ?? {}} onSet={(paint) => edit("paint", (i) => ({ ...i, vehicle: { ...i.vehicle, paint } }))} />
          <WordChoice
            label="Size"
            fact="vehicle.size"
            prefix="VEHICLE_SIZE"
            value={vehicle.size}
            onPick={(size) => edit("size", (i) => ({ ...i, vehicle: { ...i.vehicle, size } }))}
          />
          <WordChoice
            label="Where it stands"
            fact="vehicle.kept"
            prefix="VEHICLE_KEPT"
            value={vehicle.kept}
            onPick={(kept) => edit("where it stands", (i) => ({ ...i, vehicle: { ...i.vehicle, kept } }))}
          />
        </details>
        <details class="fold">
          <summary>Air in the bay</summary>
          <NumberEntry
            fact="climate.air_c"
            value={climate.air_c}
            onSet={(air_c) => edit("air temperature", (i) => ({ ...i, climate: { ...i.climate, air_c } }))}
          />
          <NumberEntry
            fact="climate.humidity_pct"
            value={climate.humidity_pct}
            onSet={(humidity_pct) => edit("humidity", (i) => ({ ...i, climate: { ...i.climate, humidity_pct } }))}
          />
          <NumberEntry
            label="Panel temperature, where a panel has none of its own"
            fact="climate.panel_c"
            value={climate.panel_c}
            onSet={(panel_c) => edit("panel temperature", (i) => ({ ...i, climate: { ...i.climate, panel_c } }))}
          />
        </details>
      </div>
      <Trouble failure={refused} panels={refusedPanels}>
        <p>Nothing was recorded yet. Mend it, and record again.</p>
      </Trouble>
      {!closed && (
        <div class="actions foot">
          {(inspection.panels?.length ?? 0) === 0 ? (
            <p class="hint">Tap a panel to begin.</p>
          ) : open ? (
            <>
              <button type="button" class="quiet" disabled={!job.canUndo} onClick={() => undoIn(job.name)}>
                Undo
              </button>
              <button type="button" class="main" onClick={() => void record()}>
                Record the inspection
              </button>
            </>
          ) : (
            <>
              <Mark shape="done">{job.mine.length ? "Kept on this device" : "On record"}</Mark>
              <a class="button main" href={to("job", job.id, "advice")}>
                See the advice
              </a>
            </>
          )}
        </div>
      )}
    </div>
  );
}

function stateOf(job: Ready, id: string): "none" | "begun" | "marks" {
  const panel = panelOf(job.draft, id);
  if (!panel) return "none";
  return panel.defects?.length ? "marks" : "begun";
}

function saysOf(job: Ready, id: string): string {
  const panel = panelOf(job.draft, id);
  if (!panel) return "not looked at";
  const marks = panel.defects?.length ?? 0;
  const readings = quantities.reduce((n, q) => n + counted(job.draft, "found", id, q), 0);
  return `${marks === 1 ? "1 kind of mark" : `${marks} kinds of marks`}, ${readings === 1 ? "1 reading" : `${readings} readings`}`;
}
