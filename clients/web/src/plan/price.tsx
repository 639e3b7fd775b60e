import type { WorkPlan } from "../wire/contract";
import { money, moneyRange } from "../words/money";
import { phrase } from "../words/phrase";

// Price is what the work costs by the rate and the prices of the shop's catalogue.
export function Price({ plan }: { plan: WorkPlan }) {
  const cost = plan.cost;
  return (
    <section class="card" aria-labelledby="price">
      <h2 id="price">{phrase("Price")}</h2>
      {!cost?.total ? (
        <p>{phrase("The shop’s catalogue has no hourly rate, so there is no price.")}</p>
      ) : (
        <>
          <p class="big">{moneyRange(cost.total)}</p>
          <dl class="wide">
            <div>
              <dt>{phrase("Labour")}</dt>
              <dd>{moneyRange(cost.labour)}</dd>
              <dd class="soft">{phrase("the hours above at {rate} an hour, as the catalogue says", { rate: money(cost.hourly_rate) })}</dd>
            </div>
            <div>
              <dt>{phrase("Materials")}</dt>
              <dd>{money(cost.materials)}</dd>
              <dd class="soft">{phrase("what is used up below, at the prices of the catalogue")}</dd>
            </div>
          </dl>
        </>
      )}
    </section>
  );
}
