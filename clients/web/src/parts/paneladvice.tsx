import type { PanelAdvice, StepAdvice } from "../wire/contract";
import { figure } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { big, panelName, word } from "../words/word";
import { combinationWords, settingRows } from "./combination";
import { Fold } from "./fold";
import { LadderMark, StateMark, StepMark } from "./marks";
import { Cautions, Why } from "./reasons";
import { Soon } from "./soon";

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
      <p class="headline" lang="en">
        {advice.headline}
      </p>
      {(advice.readiness ?? []).map((r, i) => (
        <div key={i} class="readiness">
          <b>{big(word(r.effect, "READINESS_EFFECT"))}:</b> <span lang="en">{r.do}</span>
          <Why reason={r.reason} />
        </div>
      ))}
      <Fold open={open} summary={phrase("Why, how, and what is left")}>
        {(advice.defects ?? []).map((d, i) => (
          <div key={i} class="because">
            <p>
              {d.severity === undefined
                ? parts("{mark}: start with {step}", { mark: big(word(d.kind, "DEFECT_KIND")), step: <StepMark step={d.start} /> })
                : parts("{mark} of severity {severity}: start with {step}", {
                    mark: big(word(d.kind, "DEFECT_KIND")),
                    severity: d.severity,
                    step: <StepMark step={d.start} />,
                  })}
            </p>
            <Why reason={d.reason} />
          </div>
        ))}
        <div class="because">
          <p>{parts("Strongest step allowed: {step}", { step: <StepMark step={advice.limit} /> })}</p>
          <Why reason={advice.limit_reason} />
        </div>
        <div class="because">
          <p>{parts("Ladder: {ladder}", { ladder: <LadderMark ladder={advice.ladder} /> })}</p>
          <Why reason={advice.ladder_reason} />
        </div>
        {(advice.steps ?? []).map((s, i) => (
          <Soon key={i}>
            <StepCard step={s} />
          </Soon>
        ))}
        {advice.film && <FilmSays film={advice.film} />}
        {advice.gloss && <p>{glossSays(advice.gloss)}</p>}
        {(advice.left_on_purpose ?? []).map((l, i) => (
          <p key={i}>{parts("Stays on purpose: {what}", { what: <span lang="en">{l}</span> })}</p>
        ))}
        <Cautions cautions={advice.cautions} heading={phrase("Watch on this panel")} />
      </Fold>
    </article>
  );
}

function FilmSays({ film }: { film: NonNullable<PanelAdvice["film"]> }) {
  return (
    <p>
      {phrase("Film: lowest {lowest} µm; at least {usable} µm may still be taken.", { lowest: film.lowest_um ?? 0, usable: film.usable_um ?? 0 })}{" "}
      <span lang="en">{film.usable_because}</span>{" "}
      {(film.signs ?? []).length > 0 && parts("Signs: {signs}.", { signs: <span lang="en">{(film.signs ?? []).join(", ")}</span> })}
    </p>
  );
}

// glossSays puts together what is known of a panel's gloss: each part is a sentence of its own.
function glossSays(gloss: NonNullable<PanelAdvice["gloss"]>): string {
  const { angle = 0, mean_gu: mean = 0, plus_minus_gu: either, headroom_gu: headroom = 0, haze_hu: haze } = gloss;
  const says = [
    either === undefined
      ? phrase("Gloss at {angle}°: {mean} GU, {headroom} GU under the ceiling.", { angle, mean, headroom })
      : phrase("Gloss at {angle}°: {mean} ± {either} GU, {headroom} GU under the ceiling.", { angle, mean, either, headroom }),
    haze === undefined ? "" : phrase("Haze: {haze} HU.", { haze }),
  ];
  return says.filter(Boolean).join(" ");
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
            <dt>{phrase("takes")}</dt>
            <dd>
              {figure(step.removal.low_um ?? 0)}–{figure(step.removal.high_um ?? 0)} µm
            </dd>
          </div>
        )}
        {step.usable_after_um !== undefined && (
          <div>
            <dt>{phrase("usable film after")}</dt>
            <dd>{phrase("at least {film} µm", { film: step.usable_after_um })}</dd>
          </div>
        )}
      </dl>
      <Why reason={step.reason} />
    </div>
  );
}
