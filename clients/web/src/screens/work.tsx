import { countsAll, usePlan } from "../job/plan";
import { recordPlan } from "../job/record";
import { isClosed, isPlanned } from "../job/ticks";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { Soon } from "../parts/soon";
import { Sums } from "../plan/sums";
import type { WorkCourse } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big, word } from "../words/word";
import { Ending } from "./ending";
import type { Ready } from "./jobframe";
import { PanelWork } from "./panelwork";

// Work is the list to tick off while the plan of the vehicle is carried out.
export function Work({ job }: { job: Ready }) {
  const panels = job.job?.panels ?? [];
  const { value: plan, failure, again } = usePlan(job);
  if (!job.draft.inspection.panels?.length) return <p class="empty">{phrase("Inspect a panel first.")}</p>;
  const planned = isPlanned(job.job);
  const planWaits = job.mine.some((e) => e.method === "recordPlan");
  return (
    <>
      <Trouble failure={failure} again={again} />
      {plan && <Sums plan={plan} id={job.id} countsAll={countsAll(job)} />}
      {!planned && !planWaits && panels.length > 0 && !isClosed(job.job) && (
        <div class="band">
          <p>
            {phrase("Settle the plan to tick steps off. Every panel gets the ladder that its test spots have proven or, without a test spot, the one advised.")}
          </p>
          <button type="button" class="main" onClick={() => void recordPlan(job).then(() => say(phrase("Plan kept.")))}>
            {phrase("Settle the plan")}
          </button>
        </div>
      )}
      {planWaits && (
        <div class="band">
          <Mark shape="wait">{phrase("The plan waits on this device")}</Mark>
        </div>
      )}
      {(job.job?.courses ?? []).map((c, i) => (
        <Course key={i} course={c} />
      ))}
      {panels.length > 0 && <h2>{phrase("Panel by panel")}</h2>}
      <div class="cards two">
        {panels.map((p, i) => (
          <Soon key={p.panel_id} unless={i === 0}>
            <PanelWork job={job} panel={p} plan={plan} />
          </Soon>
        ))}
      </div>
      {planned && (
        <Soon>
          <Ending job={job} />
        </Soon>
      )}
    </>
  );
}

// Course is how readings during the work go beside what the test spot promised.
function Course({ course: c }: { course: WorkCourse }) {
  const behind = c.state === "WORK_COURSE_STATE_FALLING_BEHIND";
  const scale = c.angle ? phrase("gloss at {angle}°", { angle: c.angle }) : phrase("haze");
  return (
    <div class={`band ${behind ? "warn" : ""}`}>
      <Mark shape={behind ? "danger" : "note"}>{`${big(word(c.state, "WORK_COURSE_STATE"))}: ${word(c.step, "STEP")}, ${scale}`}</Mark>
      <p lang="en">{big(c.says ?? "")}.</p>
    </div>
  );
}
