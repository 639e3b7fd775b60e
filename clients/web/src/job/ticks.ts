import type { Entry } from "../device/outbox";
import type { Job, JobPanel, Progress } from "../wire/contract";

export type Line = { panel: string; step: string; state: string; waits: boolean; sections?: number };

type ProgressQuestion = { progress?: Progress[] };

// queuedFor finds the tick of a step that still waits on the device.
export const queuedFor = (mine: Entry[], panel: string, step: string): Entry | undefined =>
  mine.findLast((e) => e.method === "recordProgress" && (e.question as ProgressQuestion).progress?.some((p) => p.panel_id === panel && p.step === step));

// linesOf lists the planned steps of a panel with how far they are: on record, or as ticked on this device.
export function linesOf(p: JobPanel, mine: Entry[]): Line[] {
  return (p.steps ?? []).map((s) => {
    const panel = p.panel_id ?? "";
    const step = s.step ?? "";
    const queued = queuedFor(mine, panel, step);
    const state = (queued?.question as ProgressQuestion | undefined)?.progress?.find((x) => x.panel_id === panel)?.state ?? s.state ?? "";
    return { panel, step, state, waits: !!queued, sections: s.sections_total };
  });
}

export const isOver = (line: Line): boolean => line.state === "STEP_STATE_DONE" || line.state === "STEP_STATE_LEFT_OUT";

// isPlanned says whether the ladders are settled.
export const isPlanned = (job: Job | undefined): boolean => (job?.panels ?? []).some((p) => (p.steps ?? []).length > 0);

// isClosed says whether nothing more is worked in a job.
export const isClosed = (job: Job | undefined): boolean => ["JOB_STAGE_HANDED_OVER", "JOB_STAGE_CANCELLED"].includes(job?.stage ?? "");
