import { useState } from "preact/hooks";
import { change } from "../device/drafts";
import { choicesOf } from "../facts";
import { quantities } from "../job/quantities";
import { recordTrial } from "../job/record";
import { counted, panelOf } from "../job/sheet";
import { Choice, WordChoice, YesNo } from "../parts/choice";
import { NumberEntry, Severity } from "../parts/entry";
import { Fold } from "../parts/fold";
import { Mark, StepMark } from "../parts/marks";
import { say } from "../parts/notice";
import { StepCard } from "../parts/paneladvice";
import { Cautions } from "../parts/reasons";
import { Soon } from "../parts/soon";
import { VerdictCard } from "../parts/verdict";
import { go, to } from "../route";
import type { JobPanel, Trial } from "../wire/contract";
import { parts, phrase } from "../words/phrase";
import { big, given, panelName, word } from "../words/word";
import type { Ready } from "./jobframe";

// TestSpot tries a step on one panel and shows what it proved.
export function TestSpot({ job, panel }: { job: Ready; panel: string | undefined }) {
  const tried = job.job?.panels ?? [];
  if (!job.draft.inspection.panels?.length) return <p class="empty">{phrase("Inspect a panel first.")}</p>;
  const first = tried.find((p) => p.trials?.length)?.panel_id ?? tried.find((p) => p.advice?.state === "PANEL_STATE_READY")?.panel_id;
  const id = panel ?? first ?? job.draft.inspection.panels[0]?.id ?? "";
  const pick = job.draft.inspection.panels.map((p) => ({ value: p.id ?? "", says: panelName(p.id ?? "") }));
  const onRecord = tried.find((p) => p.panel_id === id);
  return (
    <>
      <Choice label={phrase("Panel")} choices={pick} value={id} onPick={(v) => go("job", job.id, "trial", v)} />
      {onRecord ? <OnePanel key={id} job={job} id={id} onRecord={onRecord} /> : <NotYet job={job} id={id} />}
    </>
  );
}

function NotYet({ job, id }: { job: Ready; id: string }) {
  if (job.mine.length) return <p class="empty">{phrase("The inspection waits on this device. The test spot can be entered once the service has it.")}</p>;
  return (
    <p class="empty">
      {parts("{panel} is not on record yet. {link} first, so that before and after belong together.", {
        panel: panelName(id),
        link: <a href={to("job", job.id, "inspect")}>{phrase("Record the inspection")}</a>,
      })}
    </p>
  );
}

function OnePanel({ job, id, onRecord }: { job: Ready; id: string; onRecord: JobPanel }) {
  const trials = onRecord.trials ?? [];
  const verdict = onRecord.verdict;
  const queued = job.mine.filter((e) => e.method === "recordTrial" && (e.question as { trial?: { panel_id?: string } }).trial?.panel_id === id);
  const over = verdict?.proven || verdict?.kind === "VERDICT_KIND_STOP";
  const [another, want] = useState(false);
  return (
    <div class="split even">
      <div>
        {queued.length > 0 && (
          <div class="band">
            <Mark shape="wait">{phrase("A test spot waits on this device")}</Mark>
            <p>{phrase("Its verdict comes as soon as the service is reached.")}</p>
          </div>
        )}
        {verdict && trials.length > 0 && <VerdictCard verdict={verdict} trials={trials.length} />}
        {verdict?.next?.advice && (
          <Soon>
            <StepCard step={verdict.next.advice} />
          </Soon>
        )}
        {verdict && trials.length > 0 && !over && queued.length === 0 && (
          <Fold summary={phrase("What to watch")}>
            <Cautions cautions={verdict.cautions} heading={phrase("Watch")} />
          </Fold>
        )}
        {over && !another && (
          <div class="actions">
            <a class="button main" href={to("job", job.id, "work")}>
              {phrase("On to the work")}
            </a>
            <button type="button" class="quiet" onClick={() => want(true)}>
              {phrase("Another test spot")}
            </button>
          </div>
        )}
        {trials.length === 0 && onRecord.advice && (
          <section>
            <h2>{phrase("What to try")}</h2>
            <p lang="en">{onRecord.advice.headline}</p>
            {(onRecord.advice.steps ?? []).slice(0, 1).map((s) => (
              <StepCard key={s.step} step={s} />
            ))}
          </section>
        )}
      </div>
      <div>
        {(!over || another) && queued.length === 0 && (
          <Soon unless={trials.length === 0}>
            <TrialSheet job={job} id={id} onRecord={onRecord} />
          </Soon>
        )}
        {verdict && trials.length > 0 && (over || queued.length > 0) && !another && <Cautions cautions={verdict.cautions} heading={phrase("Watch")} />}
      </div>
    </div>
  );
}

// The step to try next: what the verdict asks for, or else the ladder's first step, as the service says them.
const nextStep = (p: JobPanel): Trial["step"] => p.verdict?.next?.step ?? p.advice?.steps?.[0]?.step ?? p.advice?.start;

// After these nothing was worked: the same spot is only read again.
const readAgain = ["CHANGE_MORE_READINGS", "CHANGE_PANEL_WIPE"];

// beforeOf is what was there before this trial: what the last one left, unless the spot was only read again or another section was
// worked. Left out, it is what the inspection found.
function beforeOf(trial: Trial, last: Trial | undefined): Partial<Trial> {
  if (!last || trial.fresh_section) return {};
  if (trial.changed?.some((c) => readAgain.includes(c))) return { before: last.before ?? [], film_before: last.film_before ?? [] };
  return { before: last.after ?? [], film_before: last.film_after ?? [] };
}

// startOf begins the sheet after a verdict: with the change that it asks for, and with the readings there are when it asks for more.
function startOf(p: JobPanel): Trial {
  const last = p.trials?.at(-1);
  const change = p.verdict?.change;
  if (!last || !given(change) || change === "CHANGE_NOTHING") return {};
  if (change !== "CHANGE_MORE_READINGS") return { changed: [change] };
  return { changed: [change], after: last.after, film_after: last.film_after, left: last.left, trails_left: last.trails_left, panel_wiped: last.panel_wiped };
}

function TrialSheet({ job, id, onRecord }: { job: Ready; id: string; onRecord: JobPanel }) {
  const trial = job.draft.trials[id] ?? startOf(onRecord);
  const step = trial.step ?? nextStep(onRecord);
  const last = onRecord.trials?.at(-1);
  const [wrong, complain] = useState("");
  const edit = (did: string, next: Partial<Trial>) =>
    change(job.name, did && phrase("test spot: {did}", { did }), (d) => ({
      ...d,
      trials: { ...d.trials, [id]: { ...(d.trials[id] ?? startOf(onRecord)), ...next } },
    }));
  const shown = { ...job.draft, trials: { ...job.draft.trials, [id]: trial } };
  const defects = panelOf(job.draft, id)?.defects ?? onRecord.found?.defects ?? [];
  const left = trial.left ?? [];
  const setLeft = (i: number, kind: string, severity: number | undefined) => {
    const rest = left.filter((l) => l.kind !== defects[i]?.kind);
    edit(phrase("what is left of {mark}", { mark: kind }), {
      left:
        severity === undefined
          ? rest
          : [...rest, { kind: defects[i]?.kind, severity, ...(defects[i]?.catches_nail === undefined ? {} : { catches_nail: defects[i]?.catches_nail }) }],
    });
  };
  const readings = quantities.reduce((n, q) => n + counted(shown, "trial", id, q), 0);

  const judge = async () => {
    if (!given(step)) {
      complain(phrase("Say which step was tried."));
      return;
    }
    if (!readings && !left.length) {
      complain(phrase("Measure or inspect the spot first: there is nothing to judge yet."));
      return;
    }
    await recordTrial(job.draft, id, { ...trial, step, ...beforeOf(trial, last) });
    say(phrase("Test spot kept; the verdict comes from the service."));
    scrollTo(0, 0);
  };

  return (
    <section class="trial-sheet" aria-labelledby="sheet">
      <h2 id="sheet">{last ? phrase("The next test spot") : phrase("The test spot")}</h2>
      <Choice
        label={phrase("Step that was tried")}
        choices={choicesOf("step.now", "STEP")
          .filter((s) => s !== "STEP_NONE")
          .map((s) => ({ value: s, says: word(s, "STEP") }))}
        value={given(step) ? step : ""}
        onPick={(v) => edit(phrase("step"), { step: v as Trial["step"] })}
      />
      {last && (
        <>
          <WordChoice
            label={phrase("What was changed since the last one")}
            fact="trial.changed"
            prefix="CHANGE"
            value={trial.changed?.[0]}
            open={phrase("nothing")}
            onPick={(c) => edit(phrase("change"), { changed: c ? [c] : [] })}
            hint={phrase("One thing at a time, or nothing is learned.")}
          />
          <YesNo label={phrase("Worked on a section of its own")} value={trial.fresh_section} onPick={(v) => edit(phrase("section"), { fresh_section: v })} />
        </>
      )}
      <YesNo
        label={phrase("Oils and fillers wiped away before reading")}
        value={trial.panel_wiped}
        onPick={(v) => edit(phrase("panel wiping"), { panel_wiped: v })}
      />
      <Soon>
        <h3>{phrase("Readings afterwards, at the same spots")}</h3>
        <ul class="plain rows">
          {quantities
            .filter((q) => counted(job.draft, "found", id, q) > 0 || counted(shown, "trial", id, q) > 0)
            .map((q) => (
              <li key={q.id}>
                <a href={to("job", job.id, "read", "trial", id, q.id)} onClick={() => edit("", {})}>
                  <b>{q.title}</b>
                  <span class="soft">
                    {counted(shown, "trial", id, q)
                      ? phrase("{n} {n|reading|readings} afterwards", { n: counted(shown, "trial", id, q) })
                      : phrase("no readings afterwards")}
                  </span>
                </a>
              </li>
            ))}
          <li>
            <a href={to("job", job.id, "read", "trial", id, "gloss60")} onClick={() => edit("", {})}>
              <b>{phrase("Another scale")}</b>
              <span class="soft">{phrase("open the keypad")}</span>
            </a>
          </li>
        </ul>
      </Soon>
      <Soon>
        <h3>{phrase("What is left under the light")}</h3>
        {defects.map((d, i) => {
          const kind = word(d.kind, "DEFECT_KIND");
          return <Severity key={d.kind} label={big(kind)} value={left.find((l) => l.kind === d.kind)?.severity} onSet={(v) => setLeft(i, kind, v)} />;
        })}
        <Severity
          label={phrase("Trails or haze that the step left")}
          value={trial.trails_left}
          onSet={(trails_left) => edit(phrase("trails left"), { trails_left })}
        />
      </Soon>
      <Soon>
        <WordChoice
          label={phrase("How the residue came away")}
          fact="trial.wipe_off"
          prefix="WIPE_OFF"
          value={trial.wipe_off}
          open={phrase("not noted")}
          onPick={(wipe_off) => edit(phrase("wipe-off"), { wipe_off })}
        />
        <YesNo label={phrase("The pad was loaded")} value={trial.pad_loaded} onPick={(v) => edit(phrase("pad"), { pad_loaded: v })} />
        <YesNo label={phrase("Colour on the pad")} value={trial.color_transfer} onPick={(v) => edit(phrase("colour on the pad"), { color_transfer: v })} />
        <NumberEntry fact="trial.panel_c" value={trial.panel_c} onSet={(panel_c) => edit(phrase("panel heat"), { panel_c })} />
      </Soon>
      {wrong && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      <div class="actions foot">
        <span class="hint">
          <StepMark step={step} /> {phrase("{n} {n|reading|readings}", { n: readings })}
        </span>
        <button type="button" class="main" onClick={() => void judge()}>
          {phrase("Record and judge")}
        </button>
      </div>
    </section>
  );
}
