import type { Draft } from "../device/drafts";
import { newRequestId, post } from "../device/outbox";
import type { Inspection, Panel, Trial } from "../wire/contract";
import { onlyRead } from "./sheet";

const entry = () => ({ request_id: newRequestId(), happen_time: new Date().toISOString() });

const asSent = (panel: Panel): Panel => ({ ...panel, film: onlyRead(panel.film), gloss: onlyRead(panel.gloss) });

// asked is the inspection as the service takes it.
export const asked = (inspection: Inspection): Inspection => ({ ...inspection, panels: (inspection.panels ?? []).map(asSent) });

// changedPanels leaves out panels that are on record as they are: a panel inspected again starts anew, its trials with it.
function changedPanels(draft: Draft): Inspection {
  const now = asked(draft.inspection);
  if (!draft.recorded) return now;
  const before = asked(JSON.parse(draft.recorded) as Inspection);
  const { panels: was = [], ...rest } = before;
  const { panels = [], ...around } = now;
  if (JSON.stringify(rest) !== JSON.stringify(around)) return now;
  const changed = panels.filter((p) => JSON.stringify(p) !== JSON.stringify(was.find((w) => w.id === p.id)));
  return { ...around, panels: changed };
}

// recordInspection puts what was found in the outbox.
export async function recordInspection(draft: Draft): Promise<void> {
  const inspection = changedPanels(draft);
  if (!inspection.panels?.length) return;
  const says = `inspection of ${count(inspection.panels.length, "panel")}`;
  await post(draft.job, "recordInspection", { name: draft.job, entry: entry(), inspection }, says, (d) => ({ ...d, recorded: JSON.stringify(draft.inspection) }));
}

const count = (n: number, what: string) => `${n} ${what}${n === 1 ? "" : "s"}`;

// recordTrial puts a test spot in the outbox and clears its sheet for the next.
export async function recordTrial(draft: Draft, panel: string, trial: Trial): Promise<void> {
  const sent: Trial = { ...trial, before: onlyRead(trial.before), after: onlyRead(trial.after), film_before: onlyRead(trial.film_before), film_after: onlyRead(trial.film_after) };
  await post(draft.job, "recordTrial", { name: draft.job, entry: entry(), trial: { panel_id: panel, trial: sent } }, `test spot on ${panel}`, (d) => {
    const { [panel]: _, ...others } = d.trials;
    return { ...d, trials: others };
  });
}

export const recordPlan = (job: string) => post(job, "recordPlan", { name: job, entry: entry() }, "the plan");

type Tick = { panel: string; step: string; state: "STEP_STATE_DONE" | "STEP_STATE_UNDER_WAY" | "STEP_STATE_LEFT_OUT"; note?: string };

export const recordProgress = (job: string, t: Tick) =>
  post(
    job,
    "recordProgress",
    { name: job, entry: entry(), progress: [{ panel_id: t.panel, step: t.step as "STEP_CUT", state: t.state, ...(t.note ? { note: t.note } : {}) }] },
    `${t.step.replace("STEP_", "").toLowerCase()} on ${t.panel}`,
  );

export const correctEvent = (job: string, sequence: string, why: string) => post(job, "correctEvent", { name: job, entry: entry(), correction: { sequence, why } }, "a correction");

export async function recordWork(draft: Draft, panel: string, time: "READINGS_TIME_DURING" | "READINGS_TIME_AFTER", step: string | undefined): Promise<void> {
  const r = draft.work?.[panel] ?? {};
  const readings = [{ panel_id: panel, time, ...(step ? { step: step as "STEP_CUT" } : {}), gloss: onlyRead(r.gloss), film: onlyRead(r.film) }];
  await post(draft.job, "recordReadings", { name: draft.job, entry: entry(), readings }, `readings on ${panel}`, (d) => {
    const { [panel]: _, ...others } = d.work ?? {};
    return { ...d, work: others };
  });
}

export const finishJob = (job: string, note: string) => post(job, "finishJob", { name: job, entry: entry(), closing: { note } }, "end of the work");
export const handOver = (job: string, note: string) => post(job, "handOverJob", { name: job, entry: entry(), closing: { note } }, "handing over");
