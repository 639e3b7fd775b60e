import { change } from "../device/drafts";
import { choicesOf } from "../facts";
import { Choice, WordChoice, YesNo } from "../parts/choice";
import { Severity } from "../parts/entry";
import type { Ready } from "../screens/jobframe";
import type { Trial } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big, given, word } from "../words/word";
import { ReadingRows } from "./readingrows";

// TrialForm corrects a test spot: the step, its readings, and what was left.
export function TrialForm({ job, panel }: { job: Ready; panel: string }) {
  const trial = job.draft.trials[panel] ?? {};
  const edit = (did: string, next: Partial<Trial>) =>
    change(job.name, did, (d) => ({ ...d, trials: { ...d.trials, [panel]: { ...d.trials[panel], ...next } } }));
  return (
    <>
      <Choice
        label={phrase("Step that was tried")}
        choices={choicesOf("step.now", "STEP")
          .filter((s) => s !== "STEP_NONE")
          .map((s) => ({ value: s, says: word(s, "STEP") }))}
        value={given(trial.step) ? trial.step : ""}
        onPick={(v) => edit(phrase("step"), { step: v as Trial["step"] })}
      />
      <ReadingRows job={job} sheet="trial" panel={panel} />
      <h2>{phrase("What is left under the light")}</h2>
      {(trial.left ?? []).map((d, i) => {
        const kind = word(d.kind, "DEFECT_KIND");
        return (
          <Severity key={d.kind} label={big(kind)} value={d.severity} onSet={(severity) => edit(kind, { left: trial.left?.with(i, { ...d, severity }) })} />
        );
      })}
      <Severity
        label={phrase("Trails or haze that the step left")}
        value={trial.trails_left}
        onSet={(trails_left) => edit(phrase("trails left"), { trails_left })}
      />
      <YesNo
        label={phrase("Oils and fillers wiped away before reading")}
        value={trial.panel_wiped}
        onPick={(v) => edit(phrase("panel wiping"), { panel_wiped: v })}
      />
      <WordChoice
        label={phrase("How the residue came away")}
        fact="trial.wipe_off"
        prefix="WIPE_OFF"
        value={trial.wipe_off}
        open={phrase("not noted")}
        onPick={(wipe_off) => edit(phrase("wipe-off"), { wipe_off })}
      />
    </>
  );
}
