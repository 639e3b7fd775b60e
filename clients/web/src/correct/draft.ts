import { type Draft, type Instead, openDraft, startDraft } from "../device/drafts";
import { correctionKey } from "../job/corrected";
import { plain } from "../job/plain";
import { asked, correctEvent } from "../job/record";
import { onlyRead } from "../job/sheet";
import { partOf } from "../route";
import type { Ready } from "../screens/jobframe";
import { call } from "../wire/call";
import type { Correction, JobEvent } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";

// begin opens the draft of a correction with what holds now, or the one that was begun before, and gives the id of its screens.
export async function begin(job: Ready, event: JobEvent, holds: Instead): Promise<string> {
  const sequence = String(event.sequence);
  const key = correctionKey(job.name, sequence);
  if (!(await openDraft(key))) {
    const was = plain(holds);
    await startDraft({
      job: key,
      label: job.draft.label,
      vehicle: job.draft.vehicle,
      vehicleLabel: job.draft.vehicleLabel,
      inspection: was.inspection ?? job.draft.inspection,
      trials: was.trial?.panel_id ? { [was.trial.panel_id]: was.trial.trial ?? {} } : {},
      ...(was.readings?.panel_id ? { work: { [was.readings.panel_id]: was.readings } } : {}),
      correcting: { job: job.name, sequence, was, why: "", ...(was.progress ? { progress: was.progress } : {}) },
    });
  }
  return partOf(key);
}

// insteadOf is what the draft of a correction would put in the event's place.
export function insteadOf(draft: Draft): Instead {
  const { was, progress } = draft.correcting ?? { was: {} };
  if (was.inspection) return { inspection: asked(draft.inspection) };
  if (was.readings) {
    const r = draft.work?.[was.readings.panel_id ?? ""] ?? {};
    return { readings: { ...was.readings, ...r, gloss: onlyRead(r.gloss), film: onlyRead(r.film) } };
  }
  if (was.trial) {
    const t = draft.trials[was.trial.panel_id ?? ""] ?? {};
    const trial = { ...t, before: onlyRead(t.before), after: onlyRead(t.after), film_before: onlyRead(t.film_before), film_after: onlyRead(t.film_after) };
    return { trial: { panel_id: was.trial.panel_id ?? "", trial } };
  }
  return progress ? { progress } : {};
}

// sendCorrection puts a correction in the outbox, unless the service says already that it would not take it: that later events
// rest on what would be corrected, or that something lies outside its bounds.
export async function sendCorrection(job: string, correction: Correction): Promise<Failure | undefined> {
  try {
    await call("JobService", "correctEvent", { name: job, entry: { validate_only: true }, correction });
  } catch (thrown) {
    const failure = toFailure(thrown);
    if (!failure.passes) return failure;
  }
  await correctEvent(job, correction);
  return undefined;
}
