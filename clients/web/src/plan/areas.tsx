import { areasOf, recordedArea, setArea } from "../job/measured";
import { BoundedEntry } from "../parts/bounded";
import { Fold } from "../parts/fold";
import { LadderMark } from "../parts/marks";
import { Sources } from "../parts/sourced";
import type { Ready } from "../screens/jobframe";
import type { SourceInfo, WorkPlan } from "../wire/contract";
import { phrase } from "../words/phrase";
import { microns, minutes, squareMetres } from "../words/range";
import { panelName } from "../words/word";
import { Keep } from "./keep";

// Areas is the plan panel by panel, with the area that each is reckoned with. One that the shop measured takes the place of the
// rules' and narrows the range.
export function Areas({ job, plan }: { job: Ready; plan: WorkPlan | undefined }) {
  const ids = (job.draft.inspection.panels ?? []).map((p) => p.id ?? "");
  const areas = areasOf(job);
  const order = (plan?.panels ?? []).map((p) => p.panel_id ?? "");
  return (
    <section class="card" aria-labelledby="areas">
      <h2 id="areas">{phrase("Panel by panel")}</h2>
      {ids
        .toSorted((a, b) => order.indexOf(a) - order.indexOf(b))
        .map((id) => {
          const p = plan?.panels?.find((x) => x.panel_id === id);
          const name = panelName(id);
          return (
            <Fold
              key={id}
              kind="fold panel-plan"
              summary={
                <>
                  {name}
                  {p && <LadderMark ladder={p.ladder} />}
                  {p && <span class="soft">{minutes(p.minutes)}</span>}
                </>
              }
            >
              {p?.left_alone && <p lang="en">{p.left_alone}</p>}
              {p && <Reckoned panel={p} sources={plan?.sources} />}
              <BoundedEntry
                label={phrase("Measured area of {panel}", { panel: name })}
                value={areas[id]}
                least={0.01}
                most={60}
                unit="m²"
                hint={standing(areas[id], recordedArea(job.job, id))}
                onSet={(area) => setArea(job.name, id, phrase("area of {panel}", { panel: name }), area)}
              />
            </Fold>
          );
        })}
      <Keep job={job} plan={plan} />
    </section>
  );
}

// standing says of an area whether it is on record.
function standing(now: number | undefined, recorded: number | undefined): string {
  if (now === recorded) return now === undefined ? phrase("Empty: not measured.") : phrase("On record.");
  if (recorded === undefined) return phrase("Not on record yet.");
  return phrase("Not on record yet; there it is {area}.", { area: squareMetres({ low: recorded, likely: recorded, high: recorded }) });
}

type PanelPlan = NonNullable<WorkPlan["panels"]>[number];

function Reckoned({ panel: p, sources }: { panel: PanelPlan; sources: SourceInfo[] | undefined }) {
  return (
    <dl class="wide">
      <div>
        <dt>{phrase("Area")}</dt>
        <dd>{squareMetres(p.area_m2)}</dd>
        <dd class="soft">
          <Sources from={[p.area_source ?? ""]} sources={sources} />
        </dd>
      </div>
      {p.takes?.likely_um ? (
        <div>
          <dt>{phrase("Film it takes")}</dt>
          <dd>{microns({ low: p.takes.low_um, likely: p.takes.likely_um, high: p.takes.high_um })}</dd>
          <dd class="soft">
            <Sources from={(p.steps ?? []).map((s) => s.removal_source ?? "")} sources={sources} />
          </dd>
        </div>
      ) : null}
      {p.left_um && (
        <div>
          <dt>{phrase("Film that may still go afterwards")}</dt>
          <dd>{microns(p.left_um)}</dd>
          <dd class="soft">{phrase("Go by the low end.")}</dd>
        </div>
      )}
    </dl>
  );
}
