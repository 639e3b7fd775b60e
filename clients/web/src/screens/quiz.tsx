import { useState } from "preact/hooks";
import { choicesOf } from "../facts";
import { StepMark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { Why } from "../parts/reasons";
import { call } from "../wire/call";
import type { Decision, PanelAdvice } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { parts, phrase } from "../words/phrase";
import { word } from "../words/word";
import { asInspection, type Situation, start } from "./classroom";

type Answer = { chose: string; advice?: PanelAdvice; decision?: Decision };

function draw(): Situation {
  const any = (list: string[]) => list[Math.floor(Math.random() * list.length)];
  const kinds = ["WASH_MARKS", "HOLOGRAMS", "HAZE", "OXIDATION", "SANDING_MARKS", "WATER_SPOT_ETCHING"].map((k) => `DEFECT_KIND_${k}`);
  return {
    ...start,
    softness: any(choicesOf("paint.softness", "SOFTNESS")),
    shade: any(choicesOf("paint.shade", "SHADE")),
    level: any(choicesOf("goal.level", "GOAL_LEVEL")),
    kind: any(kinds) ?? start.kind,
    severity: 1 + Math.floor(Math.random() * 5),
    film: 85 + 5 * Math.floor(Math.random() * 12),
  };
}

const says = (s: Situation) =>
  phrase("Clear coat, {softness}, {shade} colour, film {film} µm, the owner wants: {goal}. On the bonnet: {mark} of severity {severity}.", {
    softness: word(s.softness, "SOFTNESS"),
    shade: word(s.shade, "SHADE"),
    film: s.film ?? 0,
    goal: word(s.level, "GOAL_LEVEL"),
    mark: word(s.kind, "DEFECT_KIND"),
    severity: s.severity,
  });

// Quiz makes up a panel and asks where to start. The rules in force give the answer and the reason.
export function Quiz() {
  const [s, set] = useState<Situation>();
  const [answer, tell] = useState<Answer>();
  const [failure, fail] = useState<Failure>();
  const [score, count] = useState({ right: 0, asked: 0 });
  const next = () => {
    set(draw());
    tell(undefined);
    fail(undefined);
  };
  const choose = async (chose: string) => {
    if (!s) return;
    try {
      const inspection = asInspection(s);
      const [r, e] = await Promise.all([
        call("AdvisorService", "recommend", { inspection }),
        call("AdvisorService", "explain", { inspection, would: chose as "STEP_CUT" }),
      ]);
      const advice = r.recommendation?.panels?.[0];
      tell({ chose, advice, decision: (e.explanation?.decisions ?? []).find((d) => d.table === "start") });
      count((c) => ({ right: c.right + (advice?.start === chose ? 1 : 0), asked: c.asked + 1 }));
    } catch (thrown) {
      fail(toFailure(thrown));
    }
  };
  return (
    <section aria-labelledby="quiz">
      <h2 id="quiz">{phrase("Quiz")}</h2>
      {!s && (
        <button type="button" onClick={next}>
          {phrase("Ask me")}
        </button>
      )}
      {s && (
        <>
          <p class="headline">{says(s)}</p>
          <p>{phrase("Where would you start?")}</p>
          <div class="actions">
            {choicesOf("step.now", "STEP").map((step) => (
              <button key={step} type="button" disabled={!!answer} onClick={() => void choose(step)}>
                {word(step, "STEP")}
              </button>
            ))}
          </div>
          <div aria-live="polite">
            {answer && (
              <div class="band">
                <p>
                  {answer.advice?.start === answer.chose
                    ? parts("Right: {step}", { step: <StepMark step={answer.advice?.start} /> })
                    : parts("You said {said}. The rules say {step}", {
                        said: word(answer.chose, "STEP"),
                        step: <StepMark step={answer.advice?.start} />,
                      })}
                </p>
                {answer.decision?.why_not?.sentence && <p lang="en">{answer.decision.why_not.sentence}</p>}
                <Why reason={answer.advice?.defects?.[0]?.reason} open />
                <p class="soft">{phrase("{right} right of {asked}", score)}</p>
                <button type="button" class="main" onClick={next}>
                  {phrase("Next")}
                </button>
              </div>
            )}
          </div>
          <Trouble failure={failure} />
        </>
      )}
    </section>
  );
}
