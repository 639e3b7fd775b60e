import { Sourced } from "../parts/sourced";
import type { WorkPlan } from "../wire/contract";
import { duration } from "../words/number";
import { phrase } from "../words/phrase";
import { minutes } from "../words/range";
import { big } from "../words/word";

// Hours is how long the work takes, line by line.
export function Hours({ plan }: { plan: WorkPlan }) {
  return (
    <section class="card" aria-labelledby="hours">
      <h2 id="hours">{phrase("Hours")}</h2>
      <p class="big">{minutes(plan.work_min)}</p>
      <p class="soft">{aside(plan)}</p>
      {plan.still_min && <p>{phrase("Still to do: {time}", { time: minutes(plan.still_min) })}</p>}
      <h3>{phrase("What they are made of")}</h3>
      <p class="hint">{phrase("Tap a line to see where its figure comes from.")}</p>
      {(plan.lines ?? []).map((l) => (
        <Sourced key={l.what} what={big(l.what ?? "")} figure={minutes(l.minutes)} from={l.sources ?? []} sources={plan.sources} />
      ))}
    </section>
  );
}

// aside says what stands beside the hours of work.
export function aside(plan: WorkPlan): string {
  const said = [phrase("of one person’s work")];
  if (plan.cure_min) said.push(phrase("stands {time} afterwards", { time: duration(plan.cure_min) }));
  if (plan.wait_min?.likely) said.push(phrase("{time} of waiting", { time: duration(plan.wait_min.likely) }));
  return said.join("; ");
}
