import { change, type Draft, dropDraft, openDraft } from "../device/drafts";
import type { Correction, Inspection, Job } from "../wire/contract";
import { plain } from "./plain";

// correctionKey names the draft of a correction beside the job's own.
export const correctionKey = (job: string, sequence: string): string => `${job}~${sequence}`;

// settleCorrection brings what is being entered for a job in line with a correction that is on record.
export async function settleCorrection(name: string, correction: Correction, job: Job): Promise<void> {
  await dropDraft(correctionKey(name, String(correction.sequence)));
  if (await openDraft(name)) change(name, "", (d) => afterCorrection(d, correction, job));
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

// afterCorrection takes over what now holds of panels that the correction names, unless something else was entered for them
// meanwhile. A panel whose inspection was taken back is no longer on record; what was entered for it stays, to be recorded anew.
export function afterCorrection(draft: Draft, correction: Correction, job: Job): Draft {
  if (!draft.recorded) return draft;
  const { panels: was = [], ...aroundWas } = JSON.parse(draft.recorded) as Inspection;
  const { panels = [], ...around } = draft.inspection;
  const { panels: instead = [], ...aroundNow } = plain(correction.inspection ?? {});
  const named = new Set(instead.map((p) => p.id));
  const found = new Map((job.panels ?? []).flatMap((p) => (p.found && p.inspection !== "0" ? [[p.panel_id, plain(p.found)] as const] : [])));
  const recorded = [
    ...was.filter((p) => found.has(p.id)).map((p) => (named.has(p.id) ? (found.get(p.id) ?? p) : p)),
    ...instead.filter((p) => !was.some((w) => w.id === p.id)),
  ];
  const untouched = (id: string | undefined, now: unknown) => same(was.find((w) => w.id === id) ?? now, now);
  const mine = [
    ...panels.map((p) => (untouched(p.id, p) ? (recorded.find((r) => r.id === p.id) ?? p) : p)),
    ...instead.filter((p) => !panels.some((m) => m.id === p.id)),
  ];
  const recordedAround = correction.inspection ? aroundNow : aroundWas;
  const mineAround = same(around, aroundWas) ? recordedAround : around;
  return { ...draft, inspection: { ...mineAround, panels: mine }, recorded: JSON.stringify({ ...recordedAround, panels: recorded }) };
}
