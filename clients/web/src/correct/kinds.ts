import type { Instead } from "../device/drafts";
import { quantities } from "../job/quantities";
import { counted } from "../job/sheet";
import type { Inspection, JobEvent, Progress, Readings } from "../wire/contract";
import { stretch } from "../words/clock";
import { phrase } from "../words/phrase";
import { big, ladderWords, panelName, small, word } from "../words/word";

// holdsIn is what an event holds that can be corrected.
export function holdsIn(e: Instead): Instead {
  if (e.inspection) return { inspection: e.inspection };
  if (e.readings) return { readings: e.readings };
  if (e.trial) return { trial: e.trial };
  return e.progress ? { progress: e.progress } : {};
}

export const isCorrectable = (e: JobEvent): boolean => Object.keys(holdsIn(e)).length > 0;
export const isWithdrawable = (e: JobEvent): boolean => isCorrectable(e) || !!(e.plan ?? e.finished ?? e.handed_over ?? e.cancelled);

const panels = (i: Inspection): string => (i.panels ?? []).map((p) => panelName(p.id ?? "")).join(", ");

function readingsIn(r: Readings): number {
  const draft = { job: "", label: "", vehicle: "", vehicleLabel: "", inspection: {}, trials: {}, work: { x: r } };
  return quantities.reduce((n, q) => n + counted(draft, "work", "x", q), 0);
}

export const times = (): Record<string, string> => ({
  READINGS_TIME_BEFORE: phrase("before the work"),
  READINGS_TIME_DURING: phrase("while working"),
  READINGS_TIME_AFTER: phrase("after the work"),
});

const progressWords = (p: Progress): string =>
  phrase("{step} on {panel}: {state}", {
    step: big(word(p.step, "STEP")),
    panel: small(panelName(p.panel_id ?? "")),
    state: word(p.state, "STEP_STATE"),
  });

// kindOf says in a line what happened.
export function kindOf(e: JobEvent): string {
  if (e.booked) return phrase("The job was booked");
  if (e.details) return e.details.bay ? phrase("Details of the job, bay time in {bay}", { bay: e.details.bay.bay ?? "" }) : phrase("Details of the job");
  if (e.inspection) return phrase("Inspection: {panels}", { panels: panels(e.inspection) });
  if (e.readings) {
    const n = readingsIn(e.readings);
    return phrase("{n} {n|reading|readings} on {panel}, {time}", {
      n,
      panel: small(panelName(e.readings.panel_id ?? "")),
      time: times()[e.readings.time ?? ""] ?? "",
    });
  }
  if (e.trial) return phrase("Test spot on {panel}, {step}", { panel: small(panelName(e.trial.panel_id ?? "")), step: word(e.trial.trial?.step, "STEP") });
  if (e.decision)
    return e.decision.verdict
      ? phrase("Verdict of the rules: {verdict}", { verdict: word(e.decision.verdict.kind, "VERDICT_KIND") })
      : phrase("Advice of the rules");
  if (e.plan) return phrase("The plan was settled");
  if (e.progress) return progressWords(e.progress);
  if (e.finished) return phrase("The work was finished");
  if (e.handed_over) return phrase("The vehicle was handed over");
  if (e.cancelled) return phrase("The job was cancelled");
  return e.correction ? phrase("Correction of event {n}", { n: String(e.correction.sequence) }) : phrase("Something that this page does not know");
}

// moreOf is what else an event says, in a line or none.
export function moreOf(e: JobEvent): string {
  if (e.correction) return e.correction.why ?? "";
  if (e.plan)
    return [(e.plan.panels ?? []).map((p) => `${panelName(p.panel_id ?? "")} ${ladderWords(p.ladder)}`).join("; "), e.plan.note].filter(Boolean).join(". ");
  if (e.progress) return e.progress.note ?? "";
  const blocks = e.details?.bay?.blocks ?? [];
  if (blocks.length) return stretch(blocks[0]?.start_time, blocks.at(-1)?.end_time);
  return (e.finished ?? e.handed_over ?? e.cancelled)?.note ?? "";
}
