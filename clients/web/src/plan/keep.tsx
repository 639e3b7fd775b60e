import { isUnrecorded } from "../device/drafts";
import { hasNewAreas, hasNewCrew } from "../job/measured";
import { recordPlan } from "../job/record";
import { isClosed, isPlanned } from "../job/ticks";
import { Mark } from "../parts/marks";
import { say } from "../parts/notice";
import type { Ready } from "../screens/jobframe";
import type { Ladder, WorkPlan } from "../wire/contract";
import { phrase } from "../words/phrase";
import { given } from "../words/word";

// Keep puts areas and the crew on record: with the plan, which stays as it is where there is one.
export function Keep({ job, plan }: { job: Ready; plan: WorkPlan | undefined }) {
  if (job.mine.some((e) => e.method === "recordPlan")) return <Mark shape="wait">{phrase("The plan waits on this device")}</Mark>;
  if (!hasNewAreas(job) && !hasNewCrew(job)) return null;
  if (isClosed(job.job) || job.job?.stage === "JOB_STAGE_FINISHED")
    return <p class="hint">{phrase("The work is done: what was measured since stays on this device.")}</p>;
  if (!isPlanned(job.job) || isUnrecorded(job.draft))
    return <p class="hint">{phrase("Areas and who works go on record when the plan is settled. Until then they are on this device alone.")}</p>;
  const order = (plan?.panels ?? []).map((p) => p.panel_id);
  const panels = (job.job?.panels ?? [])
    .filter((p) => given(p.ladder))
    .toSorted((a, b) => order.indexOf(a.panel_id) - order.indexOf(b.panel_id))
    .map((p) => ({ panel_id: p.panel_id ?? "", ladder: p.ladder as Ladder }));
  return (
    <div class="actions">
      <button type="button" class="main" onClick={() => void recordPlan(job, panels).then(() => say(phrase("Plan kept.")))}>
        {phrase("Record what was measured and who works")}
      </button>
    </div>
  );
}
