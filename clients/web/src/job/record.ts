import { change, type Draft, openDraft } from "../device/drafts";
import { type Entry, newRequestId, post, withdraw } from "../device/outbox";
import { call } from "../wire/call";
import type { Correction, Inspection, Ladder, Panel, Trial } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { panelName, small, word } from "../words/word";
import { type Entered, withPlan } from "./measured";
import { onlyRead } from "./sheet";

// entry comes with everything that is recorded.
export const entry = () => ({ request_id: newRequestId(), happen_time: new Date().toISOString() });

const asSent = (panel: Panel): Panel => ({ ...panel, film: onlyRead(panel.film), gloss: onlyRead(panel.gloss) });

// asked is the inspection as the service takes it.
export const asked = (inspection: Inspection): Inspection => ({ ...inspection, panels: (inspection.panels ?? []).map(asSent) });

// changedPanels leaves out panels that are on record as they are: a panel inspected again starts anew, its trials with it.
export function changedPanels(draft: Draft): Inspection {
  const now = asked(draft.inspection);
  if (!draft.recorded) return now;
  const before = asked(JSON.parse(draft.recorded) as Inspection);
  const { panels: was = [], ...rest } = before;
  const { panels = [], ...around } = now;
  if (JSON.stringify(rest) !== JSON.stringify(around)) return now;
  const changed = panels.filter((p) => JSON.stringify(p) !== JSON.stringify(was.find((w) => w.id === p.id)));
  return { ...around, panels: changed };
}

// refusal says what the service would refuse in an inspection, while there is somebody to mend it. Where it cannot be reached,
// there is nothing to say yet.
export async function refusal(inspection: Inspection): Promise<Failure | undefined> {
  try {
    await call("AdvisorService", "recommend", { inspection: asked(inspection) });
  } catch (thrown) {
    const failure = toFailure(thrown);
    if (!failure.passes) return failure;
  }
  return undefined;
}

// recordInspection puts what was found in the outbox, unless the service says already that it would not take it.
export async function recordInspection(draft: Draft): Promise<Failure | undefined> {
  const inspection = changedPanels(draft);
  if (!inspection.panels?.length) return undefined;
  const refused = await refusal(inspection);
  if (refused) return refused;
  const says = phrase("inspection of {n} {n|panel|panels}", { n: inspection.panels.length });
  await post(draft.job, "recordInspection", { name: draft.job, entry: entry(), inspection }, says, (d) => ({
    ...d,
    recorded: JSON.stringify(draft.inspection),
    before: d.recorded,
  }));
  return undefined;
}

// recordTrial puts a test spot in the outbox and clears its sheet for the next.
export async function recordTrial(draft: Draft, panel: string, trial: Trial): Promise<void> {
  const sent: Trial = {
    ...trial,
    before: onlyRead(trial.before),
    after: onlyRead(trial.after),
    film_before: onlyRead(trial.film_before),
    film_after: onlyRead(trial.film_after),
  };
  const says = phrase("test spot on {panel}", { panel: small(panelName(panel)) });
  await post(draft.job, "recordTrial", { name: draft.job, entry: entry(), trial: { panel_id: panel, trial: sent } }, says, (d) => {
    const { [panel]: _, ...others } = d.trials;
    return { ...d, trials: others };
  });
}

type PlannedPanel = { panel_id: string; ladder: Ladder };

// recordPlan settles the ladders: those given, in the order of work, or what is proven or advised by what is on record. Areas and
// the crew that were entered go with them.
export function recordPlan(job: Entered & { name: string }, panels: PlannedPanel[] = [], note = "") {
  const plan = { ...(panels.length ? { panels, note } : {}), ...withPlan(job) };
  return post(job.name, "recordPlan", { name: job.name, entry: entry(), plan }, phrase("the plan"));
}

type Tick = { panel: string; step: string; state: "STEP_STATE_DONE" | "STEP_STATE_UNDER_WAY" | "STEP_STATE_LEFT_OUT"; note?: string };

// recordProgress ticks a step off and gives the id it is sent with, by which it can be taken back.
export async function recordProgress(job: string, t: Tick): Promise<string> {
  const note = t.note ? { note: t.note } : {};
  const progress = [{ panel_id: t.panel, step: t.step as "STEP_CUT", state: t.state, ...note }];
  const e = entry();
  const says = phrase("{step} on {panel}", { step: word(t.step, "STEP"), panel: small(panelName(t.panel)) });
  await post(job, "recordProgress", { name: job, entry: e, progress }, says);
  return e.request_id;
}

// correctEvent puts something else in the place of an event, or nothing.
export const correctEvent = (job: string, correction: Correction) =>
  post(job, "correctEvent", { name: job, entry: entry(), correction }, phrase("a correction"));

export const takeBackEvent = (job: string, sequence: string, why: string) => correctEvent(job, { sequence, why });

export async function recordWork(draft: Draft, panel: string, time: "READINGS_TIME_DURING" | "READINGS_TIME_AFTER", step: string | undefined): Promise<void> {
  const r = draft.work?.[panel] ?? {};
  const readings = [{ panel_id: panel, time, ...(step ? { step: step as "STEP_CUT" } : {}), gloss: onlyRead(r.gloss), film: onlyRead(r.film) }];
  const says = phrase("readings on {panel}", { panel: small(panelName(panel)) });
  await post(draft.job, "recordReadings", { name: draft.job, entry: entry(), readings }, says, (d) => {
    const { [panel]: _, ...others } = d.work ?? {};
    return { ...d, work: others };
  });
}

export const finishJob = (job: string, note: string) => post(job, "finishJob", { name: job, entry: entry(), closing: { note } }, phrase("end of the work"));
export const handOver = (job: string, note: string) => post(job, "handOverJob", { name: job, entry: entry(), closing: { note } }, phrase("handing over"));
export const cancelJob = (job: string, note: string) => post(job, "cancelJob", { name: job, entry: entry(), closing: { note } }, phrase("cancelling the job"));

// takeBack brings a refused entry back to where it was entered, to be mended there, and says where that is.
export async function takeBack(entry: Entry): Promise<string[]> {
  await openDraft(entry.job);
  const question = entry.question as { trial?: { panel_id?: string; trial?: Trial } };
  if (entry.method === "recordInspection") change(entry.job, "", (d) => ({ ...d, recorded: d.before, before: undefined }));
  const panel = question.trial?.panel_id;
  if (entry.method === "recordTrial" && panel) change(entry.job, "", (d) => ({ ...d, trials: { ...d.trials, [panel]: question.trial?.trial ?? {} } }));
  await withdraw(entry);
  if (entry.method === "recordTrial") return ["trial", panel ?? ""];
  if (entry.method === "recordPlan") return ["plan", "fit"];
  if (entry.method === "correctEvent") return ["events"];
  return entry.method === "recordInspection" ? ["inspect"] : ["details"];
}

// mendable says whether an entry can go back to where it was entered.
export const mendable = (entry: Entry): boolean =>
  ["recordInspection", "recordTrial", "recordPlan", "correctEvent", "updateJob", "updateVehicle", "cancelJob"].includes(entry.method);
