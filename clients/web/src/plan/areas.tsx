import { setArea } from "../job/plan";
import { BoundedEntry } from "../parts/bounded";
import { LadderMark } from "../parts/marks";
import { Sourced } from "../parts/sourced";
import type { Ready } from "../screens/jobframe";
import type { WorkPlan } from "../wire/contract";
import { phrase } from "../words/phrase";
import { microns, minutes, squareMetres } from "../words/range";
import { panelName } from "../words/word";

// Areas is the plan panel by panel, with the area that each is reckoned with. One that the shop measured takes the place of the
// rules' and narrows the range.
export function Areas({ job, plan }: { job: Ready; plan: WorkPlan | undefined }) {
  const ids = (job.draft.inspection.panels ?? []).map((p) => p.id ?? "");
  const order = (plan?.panels ?? []).map((p) => p.panel_id ?? "");
  const sorted = ids.toSorted((a, b) => order.indexOf(a) - order.indexOf(b));
  return (
    <section class="card" aria-labelledby="areas">
      <h2 id="areas">{phrase("Panel by panel")}</h2>
      {sorted.map((id) => {
        const p = plan?.panels?.find((x) => x.panel_id === id);
        const name = panelName(id);
        return (
          <div key={id} class="panel-plan">
            <h3>{name}</h3>
            <div class="marks-row">
              {p && <LadderMark ladder={p.ladder} />}
              {p && <span class="soft">{minutes(p.minutes)}</span>}
            </div>
            {p?.left_alone && <p>{p.left_alone}</p>}
            {p && <Sourced what={phrase("Area")} figure={squareMetres(p.area_m2)} from={[p.area_source ?? ""]} sources={plan?.sources} />}
            {p?.takes?.likely_um ? (
              <Sourced
                what={phrase("Film it takes")}
                figure={microns({ low: p.takes.low_um, likely: p.takes.likely_um, high: p.takes.high_um })}
                from={(p.steps ?? []).map((s) => s.removal_source ?? "")}
                sources={plan?.sources}
              />
            ) : null}
            {p?.left_um && <p class="soft">{phrase("Film that may still go afterwards: {film}; go by the low end.", { film: microns(p.left_um) })}</p>}
            <BoundedEntry
              label={phrase("Measured area of {panel}", { panel: name })}
              value={job.draft.areas?.[id]}
              least={0.01}
              most={60}
              unit="m²"
              hint={phrase("Empty: not measured.")}
              onSet={(area) => setArea(job.name, id, phrase("area of {panel}", { panel: name }), area)}
            />
          </div>
        );
      })}
      <p class="hint">
        {phrase("Measured areas stay on this device: the record of a job has no place for them yet, and a booking reckons with the areas of the rules.")}
      </p>
    </section>
  );
}
