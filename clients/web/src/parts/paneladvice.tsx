import type { PanelAdvice, StepAdvice } from "../wire/contract";
import { figure } from "../words/number";
import { big, panelName, word } from "../words/word";
import { combinationWords, settingRows } from "./combination";
import { LadderMark, StateMark, StepMark } from "./marks";
import { Cautions, Why } from "./reasons";

// PanelAdviceCard is the answer for one panel with everything behind it.
export function PanelAdviceCard({ advice, open }: { advice: PanelAdvice; open: boolean }) {
  const id = advice.panel_id ?? "";
  return (
    <article class="card advice" aria-labelledby={`advice-${id}`}>
      <h3 id={`advice-${id}`}>{panelName(id)}</h3>
      <div class="marks-row">
        <StateMark state={advice.state} />
        <LadderMark ladder={advice.ladder} />
      </div>
      <p class="headline">{advice.headline}</p>
      {(advice.readiness ?? []).map((r, i) => (
        <div key={i} class="readiness">
          <b>{big(word(r.effect, "READINESS_EFFECT"))}:</b> {r.do}
          <Why reason={r.reason} />
        </div>
      ))}
      <details class="fold" open={open}>
        <summary>Why, how, and what is left</summary>
        {(advice.defects ?? []).map((d, i) => (
          <div key={i} class="because">
            <p>
              {big(word(d.kind, "DEFECT_KIND"))}
              {d.severity !== undefined && ` of severity ${d.severity}`}: start with <StepMark step={d.start} />
            </p>
            <Why reason={d.reason} />
          </div>
        ))}
        <div class="because">
          <p>
            Strongest step allowed: <StepMark step={advice.limit} />
          </p>
          <Why reason={advice.limit_reason} />
        </div>
        <div class="because">
          <p>
            Ladder: <LadderMark ladder={advice.ladder} />
          </p>
          <Why reason={advice.ladder_reason} />
        </div>
        {(advice.steps ?? []).map((s, i) => (
          <StepCard key={i} step={s} />
        ))}
        {advice.film && (
          <p>
            Film: lowest {figure(advice.film.lowest_um ?? 0)} µm; at least {figure(advice.film.usable_um ?? 0)} µm may still be taken.{" "}
            {advice.film.usable_because}
            {(advice.film.signs ?? []).length > 0 && ` Signs: ${(advice.film.signs ?? []).join(", ")}.`}
          </p>
        )}
        {advice.gloss && (
          <p>
            Gloss at {advice.gloss.angle}°: {figure(advice.gloss.mean_gu ?? 0)}
            {advice.gloss.plus_minus_gu !== undefined && ` ± ${figure(advice.gloss.plus_minus_gu)}`} GU, {figure(advice.gloss.headroom_gu ?? 0)} GU under the
            ceiling
            {advice.gloss.haze_hu !== undefined && `; haze ${figure(advice.gloss.haze_hu)} HU`}.
          </p>
        )}
        {(advice.left_on_purpose ?? []).map((l, i) => (
          <p key={i}>Stays on purpose: {l}</p>
        ))}
        <Cautions cautions={advice.cautions} heading="Watch on this panel" />
      </details>
    </article>
  );
}

// StepCard is how to run one step.
export function StepCard({ step }: { step: StepAdvice }) {
  return (
    <div class="step">
      <p class="step-name">
        <StepMark step={step.step} /> <span>{combinationWords(step.combination)}</span>
      </p>
      <dl>
        {settingRows(step.settings).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
        {step.removal && (
          <div>
            <dt>takes</dt>
            <dd>
              {figure(step.removal.low_um ?? 0)}–{figure(step.removal.high_um ?? 0)} µm
            </dd>
          </div>
        )}
        {step.usable_after_um !== undefined && (
          <div>
            <dt>usable film after</dt>
            <dd>at least {figure(step.usable_after_um)} µm</dd>
          </div>
        )}
      </dl>
      <Why reason={step.reason} />
    </div>
  );
}
