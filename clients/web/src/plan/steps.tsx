import { StepMark } from "../parts/marks";
import type { WorkPlan } from "../wire/contract";
import { phrase } from "../words/phrase";
import { minutes } from "../words/range";
import { panelName } from "../words/word";

// Steps is what is carried over the vehicle, step by step, with the pads it takes.
export function Steps({ plan }: { plan: WorkPlan }) {
  return (
    <section class="card" aria-labelledby="steps">
      <h2 id="steps">{phrase("Steps and pads")}</h2>
      <ol>
        {(plan.steps ?? []).map((s, i) => (
          <li key={i}>
            <StepMark step={s.step} />{" "}
            {phrase("{n} {n|panel|panels}, {sections} {sections|section|sections}, {time}", {
              n: s.panels ?? 0,
              sections: s.sections ?? 0,
              time: minutes(s.minutes),
            })}
            <ul>
              {(s.pads ?? []).map((p, k) => (
                <li key={k}>{padWords(p)}</li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
    </section>
  );
}

type Pads = NonNullable<NonNullable<WorkPlan["steps"]>[number]["pads"]>[number];

function padWords(p: Pads): string {
  const said = [phrase("{n} {n|pad|pads}", { n: p.pads ?? 0 })];
  if (p.pad_id) said.push(phrase("{pad} with {liquid}", { pad: p.pad_id, liquid: p.liquid_id || phrase("its liquid") }));
  if (p.change_at?.length) said.push(phrase("a fresh one at {panels}", { panels: p.change_at.map((x) => panelName(x)).join(", ") }));
  return said.join(", ");
}
