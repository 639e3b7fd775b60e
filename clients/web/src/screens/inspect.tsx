import { useState } from "preact/hooks";
import { change, isUnrecorded } from "../device/drafts";
import { quantities } from "../job/quantities";
import { changedPanels, recordInspection } from "../job/record";
import { keepRefused } from "../job/refused";
import { counted, panelOf } from "../job/sheet";
import { WordChoice } from "../parts/choice";
import { NumberEntry } from "../parts/entry";
import { Fold } from "../parts/fold";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { body, Outline } from "../parts/outline";
import { Soon } from "../parts/soon";
import { PaintEntry } from "../parts/vehicle";
import { go, to } from "../route";
import type { Inspection } from "../wire/contract";
import type { Failure } from "../wire/failure";
import { parts, phrase } from "../words/phrase";
import { panelName } from "../words/word";
import { AskedOfVehicle } from "./asked";
import { type Ready, undoIn } from "./jobframe";

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
    keepRefused(job.name, refused, changedPanels(draft).panels?.map((p) => p.id ?? "") ?? []);
    if (refused) return;
    say(phrase("Inspection kept; it is sent when the service is reached."));
    go("job", job.id, "advice");
  };
  return (
    <div class="split">
      <section aria-labelledby="panels">
        <h2 id="panels">{phrase("Panels")}</h2>
        <Outline looked={(id) => stateOf(job, id)} href={(id) => to("job", job.id, "inspect", id)} name={panelName} says={(id) => saysOf(job, id)} />
        <p class="key hint">{parts("{none} not looked at · {begun} begun · {graded} marks graded", { none: <b>+</b>, begun: <b>◔</b>, graded: <b>✓</b> })}</p>
      </section>
      <div>
        <Soon>
          <section aria-labelledby="list">
            <h2 id="list">{phrase("As a list")}</h2>
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
        </Soon>
        <Soon>
          <AskedOfVehicle job={job} />
        </Soon>
        <Fold summary={phrase("Goal")}>
          <WordChoice
            label={phrase("What the owner wants")}
            fact="goal.level"
            prefix="GOAL_LEVEL"
            value={inspection.goal?.level}
            open={phrase("not asked yet")}
            onPick={(level) => edit(phrase("goal"), (i) => ({ ...i, goal: { ...i.goal, level } }))}
          />
          <WordChoice
            label={phrase("What goes on afterwards")}
            fact="goal.protection"
            prefix="PROTECTION"
            value={inspection.goal?.protection}
            open={phrase("not asked yet")}
            onPick={(protection) => edit(phrase("protection"), (i) => ({ ...i, goal: { ...i.goal, protection } }))}
          />
        </Fold>
        <Fold summary={phrase("Paint of the vehicle")}>
          <PaintEntry age paint={vehicle.paint ?? {}} onSet={(paint) => edit(phrase("paint"), (i) => ({ ...i, vehicle: { ...i.vehicle, paint } }))} />
          <WordChoice
            label={phrase("Size")}
            fact="vehicle.size"
            prefix="VEHICLE_SIZE"
            value={vehicle.size}
            onPick={(size) => edit(phrase("size"), (i) => ({ ...i, vehicle: { ...i.vehicle, size } }))}
          />
          <WordChoice
            label={phrase("Where it stands")}
            fact="vehicle.kept"
            prefix="VEHICLE_KEPT"
            value={vehicle.kept}
            onPick={(kept) => edit(phrase("where it stands"), (i) => ({ ...i, vehicle: { ...i.vehicle, kept } }))}
          />
        </Fold>
        <Fold summary={phrase("Air in the bay")}>
          <NumberEntry
            fact="climate.air_c"
            value={climate.air_c}
            onSet={(air_c) => edit(phrase("air temperature"), (i) => ({ ...i, climate: { ...i.climate, air_c } }))}
          />
          <NumberEntry
            fact="climate.humidity_pct"
            value={climate.humidity_pct}
            onSet={(humidity_pct) => edit(phrase("humidity"), (i) => ({ ...i, climate: { ...i.climate, humidity_pct } }))}
          />
          <NumberEntry
            label={phrase("Panel temperature, where a panel has none of its own")}
            fact="climate.panel_c"
            value={climate.panel_c}
            onSet={(panel_c) => edit(phrase("panel temperature"), (i) => ({ ...i, climate: { ...i.climate, panel_c } }))}
          />
        </Fold>
      </div>
      <Trouble failure={refused} panels={refusedPanels}>
        <p>{phrase("Nothing was recorded yet. Mend it, and record again.")}</p>
      </Trouble>
      {!closed && (
        <div class="actions foot">
          {(inspection.panels?.length ?? 0) === 0 ? (
            <p class="hint">{phrase("Tap a panel to begin.")}</p>
          ) : open ? (
            <>
              <button type="button" class="quiet" disabled={!job.canUndo} onClick={() => undoIn(job.name)}>
                {phrase("Undo")}
              </button>
              <button type="button" class="main" onClick={() => void record()}>
                {phrase("Record the inspection")}
              </button>
            </>
          ) : (
            <>
              <Mark shape="done">{job.mine.length ? phrase("Kept on this device") : phrase("On record")}</Mark>
              <a class="button main" href={to("job", job.id, "advice")}>
                {phrase("See the advice")}
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
  if (!panel) return phrase("not looked at");
  const marks = panel.defects?.length ?? 0;
  const readings = quantities.reduce((n, q) => n + counted(job.draft, "found", id, q), 0);
  return phrase("{marks} {marks|kind of mark|kinds of marks}, {readings} {readings|reading|readings}", { marks, readings });
}
