import { useState } from "preact/hooks";
import { isUnrecorded } from "../device/drafts";
import { crewOf } from "../job/measured";
import { type Fit, type Fixed, useFit } from "../job/plan";
import { recordPlan } from "../job/record";
import { isClosed } from "../job/ticks";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { YesOrNo } from "../parts/yesorno";
import { go, to } from "../route";
import type { Ready } from "../screens/jobframe";
import type { Ladder } from "../wire/contract";
import { money } from "../words/money";
import { duration, figure } from "../words/number";
import { phrase } from "../words/phrase";
import { Curve } from "./curve";
import { FitPanels } from "./fitpanels";
import { FixedEntry } from "./fixed";
import { fixedWords } from "./said";

// FitScreen finds the best use of hours, or of a price, that are fixed, and shows what it leaves out.
export function FitScreen({ job }: { job: Ready }) {
  const [fixed, fix] = useState<Fixed>({ hours: crewOf(job).day_hours ?? 8 });
  const [keep, keepProven] = useState(true);
  const { value: fit, failure, busy, again } = useFit(job, fixed, keep);
  const proven = (job.job?.panels ?? []).some((p) => p.verdict?.proven);
  const currency = fit?.answer.full_total?.likely?.currency_code;
  const wrong = failure?.violations.find((v) => v.field === "hours" || v.field.startsWith("price"))?.description;
  return (
    <>
      <div class="heading">
        <h2>{phrase("What fits the hours")}</h2>
        <a class="button quiet" href={to("job", job.id, "plan")}>
          {phrase("The plan in full")}
        </a>
      </div>
      <div class="split">
        <div>
          <FixedEntry fixed={fixed} onFix={fix} currency={currency} wrong={wrong} />
          {proven && <YesOrNo label={phrase("Keep what test spots have proven")} value={keep} onPick={keepProven} />}
          {!wrong && (
            <Trouble failure={failure} again={again}>
              {fit && <p>{phrase("What is shown is the last answer on this device.")}</p>}
            </Trouble>
          )}
          {busy && !failure && <p role="status">{phrase("Reckoning …")}</p>}
          {fit && <Outcome fit={fit} />}
          {fit && <Take job={job} fit={fit} />}
        </div>
        {fit && (
          <div>
            <FitPanels fit={fit} />
            <Curve fit={fit} onHours={(hours) => fix({ hours })} />
          </div>
        )}
      </div>
    </>
  );
}

function Outcome({ fit }: { fit: Fit }) {
  const { plan, result_pct = 0, full_work_min = 0, full_total } = fit.answer;
  const less = (plan?.work_min?.likely ?? 0) < full_work_min - 0.5;
  return (
    <section class="sums" aria-labelledby="outcome" aria-live="polite">
      <h3 id="outcome">{phrase("The best use of {fixed}", { fixed: fixedWords(fit) })}</h3>
      <p class="big">{phrase("{pct} % of the full result", { pct: figure(result_pct, 0) })}</p>
      <p>
        {less
          ? phrase("takes {time} instead of {full}", { time: duration(plan?.work_min?.likely ?? 0), full: duration(full_work_min) })
          : phrase("takes {time}: everything fits", { time: duration(plan?.work_min?.likely ?? 0) })}
        {plan?.cost?.total && (
          <>
            {"; "}
            {less
              ? phrase("costs {price} instead of {full}", { price: money(plan.cost.total.likely), full: money(full_total?.likely) })
              : phrase("costs {price}", { price: money(plan.cost.total.likely) })}
          </>
        )}
      </p>
      <p class="hint">{phrase("Likely figures. The result counts the grades of marks that go, each panel by how much of it an owner sees.")}</p>
    </section>
  );
}

function Take({ job, fit }: { job: Ready; fit: Fit }) {
  if (isClosed(job.job)) return null;
  if (!job.job?.panels?.length || isUnrecorded(job.draft))
    return (
      <p class="hint">
        {phrase("This can be taken as the plan once the inspection is on record.")} <a href={to("job", job.id, "inspect")}>{phrase("To the inspection")}</a>
      </p>
    );
  if (job.mine.some((e) => e.method === "recordPlan")) return <Mark shape="wait">{phrase("The plan waits on this device")}</Mark>;
  const order = (fit.answer.plan?.panels ?? []).map((p) => p.panel_id);
  const panels = (fit.answer.panels ?? [])
    .toSorted((a, b) => order.indexOf(a.panel_id) - order.indexOf(b.panel_id))
    .map((p) => ({ panel_id: p.panel_id ?? "", ladder: p.ladder as Ladder }));
  const take = async () => {
    await recordPlan(job, panels, phrase("The best use of {fixed}", { fixed: fixedWords(fit) }));
    say(phrase("Plan kept."));
    go("job", job.id, "work");
  };
  return (
    <div class="actions">
      <button type="button" class="main" onClick={() => void take()}>
        {phrase("Take this as the plan")}
      </button>
    </div>
  );
}
