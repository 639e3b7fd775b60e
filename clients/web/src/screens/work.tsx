import { useState } from "preact/hooks";
import { useKept } from "../device/kept";
import { requestOf, withdraw } from "../device/outbox";
import { eventsOf } from "../job/job";
import { asked, correctEvent, finishJob, handOver, recordPlan, recordProgress, recordWork } from "../job/record";
import { counted, quantities } from "../job/sheet";
import { isOver, isPlanned, type Line, linesOf, queuedFor } from "../job/ticks";
import { combinationWords } from "../parts/combination";
import { TextEntry } from "../parts/entry";
import { LadderMark, Mark, StepMark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { to } from "../route";
import { call } from "../wire/call";
import type { JobEvent, JobPanel, Span, WorkPlan } from "../wire/contract";
import { duration, figure } from "../words/number";
import { big, given, panelName, word } from "../words/word";
import type { Ready } from "./jobframe";

const range = (s: Span | undefined): string => (s ? `${duration(s.likely ?? 0)} (${duration(s.low ?? 0)} to ${duration(s.high ?? 0)})` : "");

// Work is the plan of the vehicle, and the list to tick off while it is carried out.
export function Work({ job }: { job: Ready }) {
  const panels = job.job?.panels ?? [];
  const settled = panels.flatMap((p) =>
    given(p.ladder)
      ? [{ panel_id: p.panel_id, ladder: p.ladder, proven: !!p.verdict?.proven }]
      : p.verdict?.proven
        ? [{ panel_id: p.panel_id, ladder: p.verdict.ladder, proven: true }]
        : [],
  );
  const key = job.draft.inspection.panels?.length ? `plan ${job.name}` : undefined;
  const { value, failure, again } = useKept(
    key,
    async () => (await call("PlanService", "planJob", { inspection: asked(job.draft.inspection), ladders: settled })).plan,
    [job.job?.last_sequence, job.draft.recorded],
  );
  if (!key) return <p class="empty">Inspect a panel first.</p>;
  const planned = isPlanned(job.job);
  const planWaits = job.mine.some((e) => e.method === "recordPlan");
  return (
    <>
      <Trouble failure={failure} again={again} />
      {value && <Sums plan={value} />}
      {!planned && !planWaits && panels.length > 0 && (
        <div class="band">
          <p>Settle the plan to tick steps off. Every panel gets the ladder that its test spots have proven or, without a test spot, the one advised.</p>
          <button type="button" class="main" onClick={() => void recordPlan(job.name).then(() => say("Plan kept."))}>
            Settle the plan
          </button>
        </div>
      )}
      {planWaits && (
        <div class="band">
          <Mark shape="wait">The plan waits on this device</Mark>
        </div>
      )}
      {(job.job?.courses ?? []).map((c, i) => (
        <div key={i} class={`band ${c.state === "WORK_COURSE_STATE_FALLING_BEHIND" ? "warn" : ""}`}>
          <Mark
            shape={c.state === "WORK_COURSE_STATE_FALLING_BEHIND" ? "danger" : "note"}
          >{`${big(word(c.state, "WORK_COURSE_STATE"))}: ${word(c.step, "STEP")}, ${c.angle ? `gloss at ${c.angle}°` : "haze"}`}</Mark>
          <p>{c.says}</p>
        </div>
      ))}
      <div class="cards two">
        {panels.map((p) => (
          <PanelWork key={p.panel_id} job={job} panel={p} plan={value} />
        ))}
      </div>
      {planned && <Ending job={job} />}
    </>
  );
}

function Sums({ plan }: { plan: WorkPlan }) {
  return (
    <section class="sums" aria-labelledby="sums">
      <h2 id="sums">The whole vehicle</h2>
      <p class="big">{range(plan.work_min)}</p>
      <p class="soft">
        of one person’s work
        {plan.cure_min ? `; stands ${duration(plan.cure_min)} afterwards` : ""}
        {plan.wait_min?.likely ? `; ${duration(plan.wait_min.likely)} of waiting` : ""}
      </p>
      <details class="fold">
        <summary>Steps and pads</summary>
        <ol>
          {(plan.steps ?? []).map((s, i) => (
            <li key={i}>
              <StepMark step={s.step} /> {s.panels === 1 ? "1 panel" : `${s.panels} panels`}, {s.sections} sections, {range(s.minutes)}
              <ul>
                {(s.pads ?? []).map((p, k) => (
                  <li key={k}>
                    {p.pads === 1 ? "1 pad" : `${p.pads} pads`}
                    {p.pad_id ? ` (${p.pad_id}, with ${p.liquid_id || "its liquid"})` : ""}
                    {(p.change_at ?? []).length > 0 && `; a fresh one at ${(p.change_at ?? []).map((x) => panelName(x).toLowerCase()).join(", ")}`}
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ol>
        {(plan.materials ?? []).length > 0 && (
          <>
            <h3>Used up</h3>
            <ul>
              {(plan.materials ?? []).map((m) => (
                <li key={m.id}>
                  {m.id}: {figure(m.quantity ?? 0)} {m.unit}
                </li>
              ))}
            </ul>
          </>
        )}
        {(plan.exposure?.cautions ?? []).map((c, i) => (
          <p key={i}>{c}</p>
        ))}
        {(plan.notes ?? []).map((n, i) => (
          <p key={i} class="hint">
            {n}
          </p>
        ))}
      </details>
    </section>
  );
}

function PanelWork({ job, panel, plan }: { job: Ready; panel: JobPanel; plan: WorkPlan | undefined }) {
  const id = panel.panel_id ?? "";
  const work = plan?.panels?.find((p) => p.panel_id === id);
  const lines = linesOf(panel, job.mine);
  const readings = quantities.reduce((n, q) => n + counted(job.draft, "work", id, q), 0);
  const over = lines.length > 0 && lines.every(isOver);
  const begun = lines.some((l) => isOver(l) || l.state === "STEP_STATE_UNDER_WAY");
  const closed = ["JOB_STAGE_HANDED_OVER", "JOB_STAGE_CANCELLED"].includes(job.job?.stage ?? "");
  const sent = () =>
    void recordWork(
      job.draft,
      id,
      over ? "READINGS_TIME_AFTER" : "READINGS_TIME_DURING",
      lines.findLast((l) => isOver(l) || l.state === "STEP_STATE_UNDER_WAY")?.step,
    ).then(() => say("Readings kept."));
  return (
    <article class="card" aria-labelledby={`work-${id}`}>
      <h3 id={`work-${id}`}>{panelName(id)}</h3>
      <div class="marks-row">
        <LadderMark ladder={given(panel.ladder) ? panel.ladder : (work?.ladder ?? panel.advice?.ladder)} />
        {work && <span class="soft">{range(work.minutes)}</span>}
      </div>
      {work?.left_alone && <p>{work.left_alone}</p>}
      {lines.length === 0 &&
        (work?.steps ?? []).map((s, i) => (
          <p key={i}>
            <StepMark step={s.step} /> {s.sections} sections, {combinationWords(s.combination)}
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
            {over ? "Readings after" : "Readings while working"}
            {readings > 0 && ` · ${readings}`}
          </a>
          {readings > 0 && (
            <button type="button" onClick={sent}>
              Record {readings} readings
            </button>
          )}
        </div>
      )}
    </article>
  );
}

function TickLine({ job, line, sections, closed }: { job: Ready; line: Line; sections?: number; closed: boolean }) {
  const [leaving, leave] = useState(false);
  const [note, write] = useState("");
  const step = word(line.step, "STEP");
  const name = `${step} on ${panelName(line.panel).toLowerCase()}`;
  const done = line.state === "STEP_STATE_DONE";
  const takeBack = async (request?: string) => {
    const queued = queuedFor(job.mine, line.panel, line.step);
    if (!queued || !(await withdraw(queued))) {
      const id = request ?? (queued && requestOf(queued));
      const mine = (e: JobEvent) =>
        e.progress?.panel_id === line.panel && e.progress.step === line.step && (id ? e.request_id === id : !e.corrected_by || e.corrected_by === "0");
      const event = (await eventsOf(job.name)).findLast(mine);
      if (!event?.sequence) throw new Error("it is being sent; try again in a moment");
      await correctEvent(job.name, event.sequence, "ticked by mistake");
    }
    say(`Taken back: ${name}`);
  };
  const tryBack = (request?: string) => void takeBack(request).catch((e) => say(`Not taken back: ${e instanceof Error ? e.message : e}`));
  const tick = async () => {
    const request = await recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_DONE" });
    say(`Done: ${name}`, { says: "Undo", run: () => tryBack(request) });
  };
  return (
    <li class="tick">
      {isOver(line) ? (
        <Mark shape={done ? "done" : "away"}>{`${big(step)} ${done ? "done" : "left out"}`}</Mark>
      ) : (
        <button type="button" class="tick-button" disabled={closed} onClick={() => void tick()} aria-label={`Tick off ${name}`}>
          <span class="box" aria-hidden="true" />
          <StepMark step={line.step} />
        </button>
      )}
      {!isOver(line) && sections !== undefined && <span class="soft">{sections} sections</span>}
      {line.waits && <span class="soft">waits to be sent</span>}
      {isOver(line) && !closed && (
        <button type="button" class="quiet" aria-label={`Take back: ${name}`} onClick={() => tryBack()}>
          Take back
        </button>
      )}
      {line.state === "STEP_STATE_UNDER_WAY" && <Mark shape="half">under way</Mark>}
      {line.state === "STEP_STATE_OPEN" && !closed && !leaving && (
        <button
          type="button"
          class="quiet"
          aria-label={`Begin ${name}`}
          onClick={() => void recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_UNDER_WAY" })}
        >
          Begin
        </button>
      )}
      {!isOver(line) && !closed && !leaving && (
        <button type="button" class="quiet" aria-label={`Leave out ${name}`} onClick={() => leave(true)}>
          Leave out
        </button>
      )}
      {leaving && !isOver(line) && (
        <div class="leaving">
          <TextEntry label={`Why ${name} is left out`} value={note} onSet={write} most={500} />
          <button
            type="button"
            disabled={note.trim() === ""}
            onClick={() => void recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_LEFT_OUT", note: note.trim() })}
          >
            Leave it out
          </button>
        </div>
      )}
    </li>
  );
}

function Ending({ job }: { job: Ready }) {
  const [note, write] = useState("");
  const stage = job.job?.stage;
  const open = (job.job?.panels ?? []).flatMap((p) => linesOf(p, job.mine)).filter((l) => !isOver(l)).length;
  const finishing = job.mine.some((e) => e.method === "finishJob" || e.method === "handOverJob");
  if (stage === "JOB_STAGE_HANDED_OVER" || stage === "JOB_STAGE_CANCELLED") return null;
  if (finishing) return <Mark shape="wait">Waits to be sent</Mark>;
  const finished = stage === "JOB_STAGE_FINISHED";
  return (
    <section class="band" aria-labelledby="ending">
      <h2 id="ending">{finished ? "Hand over" : "End of the work"}</h2>
      {!finished && open > 0 ? (
        <p>{open === 1 ? "1 step is open." : `${open} steps are open.`} Tick them off or leave them out with a reason.</p>
      ) : (
        <>
          <TextEntry
            label={finished ? "Advice on care" : "What was left on purpose, and why"}
            value={note}
            onSet={write}
            most={2000}
            lines={3}
            hint="May be left empty."
          />
          <button
            type="button"
            class="main"
            onClick={() => {
              void (finished ? handOver(job.name, note.trim()) : finishJob(job.name, note.trim())).then(() => write(""));
            }}
          >
            {finished ? "Handed over" : "The work is finished"}
          </button>
        </>
      )}
    </section>
  );
}
