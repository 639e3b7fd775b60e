import { to } from "../route";
import type { WorkPlan } from "../wire/contract";
import { moneyRange } from "../words/money";
import { phrase } from "../words/phrase";
import { minutes } from "../words/range";
import { aside } from "./hours";

// Sums is the plan in three lines, above the list to tick off.
export function Sums({ plan, id, countsAll }: { plan: WorkPlan; id: string; countsAll: boolean }) {
  return (
    <section class="sums" aria-labelledby="sums">
      {plan.still_min ? (
        <>
          <h2 id="sums">{phrase("Still to do")}</h2>
          <p class="big">{minutes(plan.still_min)}</p>
          <p class="soft">{phrase("of {whole} for the whole vehicle", { whole: minutes(plan.work_min) })}</p>
          {!countsAll && <p class="hint">{phrase("What waits to be sent is not counted yet.")}</p>}
        </>
      ) : (
        <>
          <h2 id="sums">{phrase("The whole vehicle")}</h2>
          <p class="big">{minutes(plan.work_min)}</p>
          <p class="soft">{aside(plan)}</p>
        </>
      )}
      {plan.cost?.total && <p>{phrase("Costs {price}", { price: moneyRange(plan.cost.total) })}</p>}
      {(plan.exposure?.cautions ?? []).slice(0, 1).map((c, i) => (
        <p key={i} class="caution-line" lang="en">
          {c}
        </p>
      ))}
      <div class="actions">
        <a class="button" href={to("job", id, "plan")}>
          {phrase("The plan in full")}
        </a>
        <a class="button quiet" href={to("job", id, "bay")}>
          {phrase("Bay time")}
        </a>
      </div>
    </section>
  );
}
