import { quantities } from "../job/quantities";
import { recordWork } from "../job/record";
import { counted } from "../job/sheet";
import { isClosed, isOver, isPlanned, linesOf } from "../job/ticks";
import { combinationWords } from "../parts/combination";
import { LadderMark, StepMark } from "../parts/marks";
import { say } from "../parts/notice";
import { to } from "../route";
import type { JobPanel, WorkPlan } from "../wire/contract";
import { phrase } from "../words/phrase";
import { minutes } from "../words/range";
import { given, panelName } from "../words/word";
import type { Ready } from "./jobframe";
import { TickLine } from "./tickline";

// PanelWork is one panel while it is worked: its steps to tick off, and the way to readings.
export function PanelWork({ job, panel, plan }: { job: Ready; panel: JobPanel; plan: WorkPlan | undefined }) {
  const id = panel.panel_id ?? "";
  const work = plan?.panels?.find((p) => p.panel_id === id);
  const lines = linesOf(panel, job.mine);
  const readings = quantities.reduce((n, q) => n + counted(job.draft, "work", id, q), 0);
  const over = lines.length > 0 && lines.every(isOver);
  const begun = lines.some((l) => isOver(l) || l.state === "STEP_STATE_UNDER_WAY");
  const closed = isClosed(job.job);
  const leftOut = isPlanned(job.job) && !given(panel.ladder);
  const sent = () =>
    void recordWork(
      job.draft,
      id,
      over ? "READINGS_TIME_AFTER" : "READINGS_TIME_DURING",
      lines.findLast((l) => isOver(l) || l.state === "STEP_STATE_UNDER_WAY")?.step,
    ).then(() => say(phrase("Readings kept.")));
  return (
    <article class="card" aria-labelledby={`work-${id}`}>
      <h3 id={`work-${id}`}>{panelName(id)}</h3>
      {leftOut ? (
        <p class="soft">{phrase("Not in the plan.")}</p>
      ) : (
        <div class="marks-row">
          <LadderMark ladder={given(panel.ladder) ? panel.ladder : (work?.ladder ?? panel.advice?.ladder)} />
          {work && <span class="soft">{minutes(work.minutes)}</span>}
        </div>
      )}
      {work?.left_alone && <p lang="en">{work.left_alone}</p>}
      {lines.length === 0 &&
        (work?.steps ?? []).map((s, i) => (
          <p key={i}>
            <StepMark step={s.step} /> {phrase("{n} {n|section|sections}", { n: s.sections ?? 0 })}, {combinationWords(s.combination)}
          </p>
        ))}
      <ul class="plain">
        {lines.map((l) => (
          <TickLine key={l.step} job={job} line={l} sections={work?.steps?.find((s) => s.step === l.step)?.sections} closed={closed} />
        ))}
      </ul>
      {begun && !closed && (
        <div class="actions">
          <a class="button quiet" href={to("job", job.id, "read", "work", id, "gloss60")}>
            {over ? phrase("Readings after") : phrase("Readings while working")}
            {readings > 0 && ` · ${readings}`}
          </a>
          {readings > 0 && (
            <button type="button" onClick={sent}>
              {phrase("Record {n} {n|reading|readings}", { n: readings })}
            </button>
          )}
        </div>
      )}
    </article>
  );
}
