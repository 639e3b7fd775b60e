import { useEffect, useState } from "preact/hooks";
import { useStore } from "../device/store";
import { choicesOf, factOf, facts } from "../facts";
import { Choice, WordChoice } from "../parts/choice";
import { LadderMark, StateMark, StepMark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { type Own, OwnFacts } from "../parts/ownfacts";
import { Why } from "../parts/reasons";
import { call } from "../wire/call";
import type { DecisionMap, Explanation, Inspection, PanelAdvice } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { figure } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { big, small, word } from "../words/word";
import { BorderMap } from "./bordermap";
import { Quiz } from "./quiz";

// Situation is one panel as a class looks at it.
export type Situation = {
  system?: string;
  softness?: string;
  shade?: string;
  level?: string;
  kind: string;
  severity: number;
  film?: number;
  gloss?: number;
  panel_c?: number;
  own?: Own;
};

export const start: Situation = {
  system: "PAINT_SYSTEM_CLEAR_COAT",
  softness: "SOFTNESS_SOFT",
  shade: "SHADE_DARK",
  level: "GOAL_LEVEL_ENHANCE",
  kind: "DEFECT_KIND_WASH_MARKS",
  severity: 2,
  film: 118,
  gloss: 84,
  panel_c: 21,
};

// asInspection writes a situation as an inspection of one invented panel, each reading taken three times alike.
export function asInspection(s: Situation): Inspection {
  const three = (v: number) => [v, v, v];
  const yes = { clean: true, taped: true, in_sun: false, edge_or_line: false, sensor_behind: false, repaint_known: false };
  return {
    vehicle: {
      label: "invented for the class",
      paint: { system: s.system, softness: s.softness, shade: s.shade, haze_prone: false } as NonNullable<Inspection["vehicle"]>["paint"],
    },
    goal: { level: s.level as NonNullable<Inspection["goal"]>["level"] },
    ...(s.own ? { shop: s.own } : {}),
    ...(s.panel_c === undefined ? {} : { climate: { panel_c: s.panel_c } }),
    panels: [
      {
        id: "bonnet",
        part: "PANEL_PART_BONNET",
        substrate: "SUBSTRATE_STEEL",
        ...yes,
        defects: [{ kind: s.kind as "DEFECT_KIND_HAZE", severity: s.severity }],
        ...(s.film === undefined ? {} : { film: ["centre", "front", "rear"].map((spot) => ({ spot, total_um: three(s.film ?? 0) })) }),
        ...(s.gloss === undefined ? {} : { gloss: [{ spot: "a", at60_gu: three(s.gloss) }] }),
      },
    ],
  };
}

type Told = { advice?: PanelAdvice; explanation?: Explanation; map?: DecisionMap };

// useTold asks anew whenever the situation changes, and lets an answer that was overtaken go.
function useTold(situation: Situation, would: string, x: string, y: string): { told: Told; failure?: Failure; busy: boolean } {
  const [state, set] = useState<{ told: Told; failure?: Failure; busy: boolean }>({ told: {}, busy: true });
  useEffect(() => {
    const leave = new AbortController();
    set((s) => ({ ...s, busy: true }));
    const timer = setTimeout(() => {
      const inspection = asInspection(situation);
      const step = would === "" ? undefined : (would as "STEP_CUT");
      Promise.all([
        call("AdvisorService", "recommend", { inspection }, leave.signal),
        call("AdvisorService", "explain", { inspection, ...(step ? { would: step } : {}) }, leave.signal),
        x === y ? undefined : call("AdvisorService", "mapDecision", { inspection, x, y }, leave.signal),
      ]).then(
        ([a, e, m]) => set({ told: { advice: a.recommendation?.panels?.[0], explanation: e.explanation, map: m?.map }, busy: false }),
        (thrown) => {
          if (!leave.signal.aborted) set((s) => ({ ...s, failure: toFailure(thrown), busy: false }));
        },
      );
    }, 120);
    return () => {
      clearTimeout(timer);
      leave.abort();
    };
  }, [JSON.stringify(situation), would, x, y]);
  return state;
}

// What the map can be drawn over, by the names that the service knows them by.
export const axes = [
  ["softness", () => phrase("softness")],
  ["severity", () => phrase("severity")],
  ["film", () => phrase("film")],
  ["shade", () => phrase("shade")],
  ["level", () => phrase("goal")],
] as const;

// ClassRoom lets a class move one thing at a time and see what it does to the answer, and why.
export function ClassRoom() {
  const schema = useStore(facts);
  const [s, set] = useState(start);
  const [would, would_] = useState("");
  const [x, across] = useState("softness");
  const [y, down] = useState("severity");
  const { told, failure, busy } = useTold(s, would, x, y);
  const move = (next: Partial<Situation>) => set({ ...s, ...next });
  if (!schema)
    return (
      <>
        <h1>{phrase("Class room")}</h1>
        <p role="status">{phrase("Fetching the schema …")}</p>
      </>
    );
  return (
    <div class="class">
      <div class="heading">
        <h1>{phrase("Class room")}</h1>
        <p class="soft">{phrase("An invented panel. Nothing here is recorded.")}</p>
      </div>
      <div class="split even">
        <section aria-labelledby="what-if">
          <h2 id="what-if">{phrase("What if")}</h2>
          <WordChoice label={phrase("Softness")} fact="paint.softness" prefix="SOFTNESS" value={s.softness} onPick={(softness) => move({ softness })} />
          <Slide fact="defect.severity" label={phrase("Severity")} value={s.severity} onSet={(severity) => move({ severity: severity ?? 0 })} />
          <Slide fact="film.lowest_um" label={phrase("Film, lowest reading")} most={250} step={1} value={s.film} onSet={(film) => move({ film })} optional />
          <Slide fact="gloss.at60_gu" label={phrase("Gloss at 60°")} most={100} step={1} value={s.gloss} onSet={(gloss) => move({ gloss })} optional />
          <Slide
            fact="climate.panel_c"
            label={phrase("Panel temperature")}
            least={0}
            most={70}
            step={1}
            value={s.panel_c}
            onSet={(panel_c) => move({ panel_c })}
            optional
          />
          <div class="entry">
            <label for="kind">{phrase("Kind of mark")}</label>
            <select id="kind" value={s.kind} onChange={(e) => move({ kind: e.currentTarget.value })}>
              {choicesOf("defect.kind", "DEFECT_KIND").map((k) => (
                <option key={k} value={k}>
                  {word(k, "DEFECT_KIND")}
                </option>
              ))}
            </select>
          </div>
          <WordChoice label={phrase("Shade")} fact="paint.shade" prefix="SHADE" value={s.shade} onPick={(shade) => move({ shade })} />
          <WordChoice label={phrase("Paint system")} fact="paint.system" prefix="PAINT_SYSTEM" value={s.system} onPick={(system) => move({ system })} />
          <WordChoice label={phrase("Goal")} fact="goal.level" prefix="GOAL_LEVEL" value={s.level} onPick={(level) => move({ level })} />
          <OwnFacts heading={phrase("What this shop asks besides")} values={s.own} open={phrase("not said")} onSet={(_, __, own) => move({ own })} />
        </section>
        <div>
          <Trouble failure={failure} />
          {told.advice && <AnswerCard advice={told.advice} busy={busy} />}
          {told.explanation && <Changes explanation={told.explanation} />}
          <section aria-labelledby="why-not">
            <h2 id="why-not">{phrase("Why not another step?")}</h2>
            <Choice
              label={phrase("A trainee would have taken")}
              choices={[...choicesOf("step.now", "STEP").map((v) => ({ value: v, says: word(v, "STEP") })), { value: "", says: phrase("not asked") }]}
              value={would}
              onPick={would_}
            />
            <div aria-live="polite">
              {would !== "" &&
                (told.explanation?.decisions ?? [])
                  .filter((d) => d.why_not)
                  .map((d, i) => (
                    <p key={i} class="band" lang="en">
                      {d.about ? `${big(d.about)}: ` : ""}
                      {d.why_not?.sentence}
                    </p>
                  ))}
              {would !== "" && !busy && !(told.explanation?.decisions ?? []).some((d) => d.why_not) && <p>{phrase("That is the answer, or is allowed.")}</p>}
            </div>
          </section>
        </div>
      </div>
      <BorderMap map={told.map} x={x} y={y} onX={across} onY={down} />
      <Quiz />
      {told.advice && (
        // On a phone the answer is out of sight while somebody moves a slider. It is read out from its own place.
        <div class="actions foot phone-answer" aria-hidden="true">
          <span lang="en">{told.advice.headline}</span>
          <LadderMark ladder={told.advice.ladder} />
        </div>
      )}
    </div>
  );
}

function AnswerCard({ advice, busy }: { advice: PanelAdvice; busy: boolean }) {
  const start = advice.defects?.[0];
  return (
    <section class="answer" aria-live="polite" aria-busy={busy} aria-labelledby="answer">
      <h2 id="answer">{phrase("The answer")}</h2>
      <p class="headline" lang="en">
        {advice.headline}
      </p>
      <div class="marks-row">
        <StateMark state={advice.state} />
        <LadderMark ladder={advice.ladder} />
      </div>
      {(advice.readiness ?? []).map((r, i) => (
        <p key={i}>
          <b>{big(word(r.effect, "READINESS_EFFECT"))}:</b> <span lang="en">{r.do}</span>
        </p>
      ))}
      <p>{parts("Start with {step}", { step: <StepMark step={start?.start} /> })}</p>
      <Why reason={start?.reason} />
      <p>{parts("Strongest step allowed: {step}", { step: <StepMark step={advice.limit} /> })}</p>
      <Why reason={advice.limit_reason} />
      <Why reason={advice.ladder_reason} />
      {advice.film && <p>{phrase("At least {film} µm of film may still be taken.", { film: advice.film.usable_um ?? 0 })}</p>}
    </section>
  );
}

// Changes tells what would change the answer, each beside the answer as it is: a pair that differs in one thing.
function Changes({ explanation }: { explanation: Explanation }) {
  const pairs = (explanation.decisions ?? []).flatMap((d) => (d.changes ?? []).map((c) => ({ d, c })));
  return (
    <section aria-labelledby="changes">
      <h2 id="changes">{phrase("What would change it")}</h2>
      {pairs.length === 0 && <p class="hint">{phrase("Nothing that can be moved alone.")}</p>}
      <ul class="plain">
        {pairs.slice(0, 6).map(({ d, c }, i) => (
          <li key={i} class="band">
            <p lang="en">
              <b>{big(c.supposed ?? "")}</b>, {c.would}.
            </p>
            {c.because && <p lang="en">{c.because}</p>}
            {c.borderline && <p>{phrase("This lies within the reading’s own uncertainty: measure again first.")}</p>}
            <p class="hint">{parts("As it is: {what}.", { what: <span lang="en">{d.says ?? d.answer}</span> })}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

type SlideProps = {
  fact: string;
  label: string;
  value: number | undefined;
  onSet: (v: number | undefined) => void;
  least?: number;
  most?: number;
  step?: number;
  optional?: boolean;
};

// Slide moves a number within the bounds of its fact, or within the part of them that a class has use for.
function Slide({ fact, label, value, onSet, least, most, step, optional }: SlideProps) {
  const f = factOf(fact);
  const min = Math.max(f.min ?? 0, least ?? f.min ?? 0);
  const max = Math.min(f.max ?? 100, most ?? f.max ?? 100);
  const says = value === undefined ? phrase("not measured") : `${figure(value)} ${f.unit ?? ""}`;
  const id = `slide-${fact.replace(".", "-")}`;
  return (
    <div class="slide">
      <label for={id}>
        {label}
        <span>{says}</span>
      </label>
      <input
        id={id}
        type="range"
        min={min}
        max={max}
        step={step ?? f.step ?? 1}
        disabled={value === undefined}
        value={value ?? min}
        aria-valuetext={says}
        onInput={(e) => onSet(Number(e.currentTarget.value))}
      />
      {optional && (
        <button type="button" class="quiet" onClick={() => onSet(value === undefined ? Math.round((min + max) / 2) : undefined)}>
          {value === undefined ? phrase("Measure: {what}", { what: small(label) }) : phrase("Take away: {what}", { what: small(label) })}
        </button>
      )}
    </div>
  );
}
