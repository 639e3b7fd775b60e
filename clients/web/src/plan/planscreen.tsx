import { usePlan } from "../job/plan";
import { Trouble } from "../parts/notice";
import { Soon } from "../parts/soon";
import { to } from "../route";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";
import { Areas } from "./areas";
import { Crew } from "./crew";
import { Exposure } from "./exposure";
import { Hours } from "./hours";
import { Materials } from "./materials";
import { Price } from "./price";
import { Steps } from "./steps";

// PlanScreen is what the work on the whole vehicle takes, each figure with where it comes from.
export function PlanScreen({ job }: { job: Ready }) {
  const { value: plan, failure, again } = usePlan(job);
  if (!job.draft.inspection.panels?.length) return <p class="empty">{phrase("Inspect a panel first.")}</p>;
  return (
    <>
      <Trouble failure={failure} again={again}>
        {plan && <p>{phrase("What is shown is the last plan on this device.")}</p>}
      </Trouble>
      <div class="actions">
        <a class="button main" href={to("job", job.id, "plan", "fit")}>
          {phrase("What fits the hours")}
        </a>
        <a class="button" href={to("job", job.id, "bay")}>
          {phrase("Bay time")}
        </a>
        <a class="button" href={to("job", job.id, "work")}>
          {phrase("To the work")}
        </a>
      </div>
      {!plan && !failure && <p role="status">{phrase("Reckoning the plan …")}</p>}
      <div class="split even">
        <div>
          {plan && <Hours plan={plan} />}
          {plan && (
            <>
              <Soon>
                <Price plan={plan} />
              </Soon>
              <Soon>
                <Materials plan={plan} />
              </Soon>
            </>
          )}
        </div>
        <div>
          {plan?.exposure && (
            <Soon>
              <Exposure day={plan.exposure} />
            </Soon>
          )}
          {plan && (
            <Soon>
              <Steps plan={plan} />
            </Soon>
          )}
          <Soon>
            <Crew job={job} days={plan?.exposure?.days} />
          </Soon>
          <Soon>
            <Areas job={job} plan={plan} />
          </Soon>
        </div>
      </div>
      {(plan?.notes ?? []).map((n, i) => (
        <p key={i} class="hint" lang="en">
          {n}
        </p>
      ))}
    </>
  );
}
