import { isUnrecorded } from "../device/drafts";
import { useKept } from "../device/kept";
import { eventsOf } from "../job/job";
import { asked } from "../job/record";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { PanelAdviceCard } from "../parts/paneladvice";
import { Cautions, MeasureNext } from "../parts/reasons";
import { to } from "../route";
import { call } from "../wire/call";
import type { PanelAdvice, Recommendation } from "../wire/contract";
import { parts, phrase } from "../words/phrase";
import { big, ladderWords, panelName, small } from "../words/word";
import type { Ready } from "./jobframe";

type Told = { recommendation?: Recommendation; recorded: boolean };

// What the rules answered: as recorded, or, while something is not on record yet, as they would answer to it now.
async function tell(job: Ready): Promise<Told> {
  if (isUnrecorded(job.draft) || !job.job?.panels?.length) {
    const answer = await call("AdvisorService", "recommend", { inspection: asked(job.draft.inspection) });
    return { recommendation: answer.recommendation, recorded: false };
  }
  const last = (await eventsOf(job.name)).findLast((e) => e.decision?.recommendation);
  return { recommendation: last?.decision?.recommendation, recorded: true };
}

// Advice is what to do on every panel, what to watch, and what would be worth measuring.
export function Advice({ job }: { job: Ready }) {
  const { draft } = job;
  const open = isUnrecorded(draft);
  const none = (draft.inspection.panels?.length ?? 0) === 0;
  const key = none ? undefined : `advice ${job.name}`;
  const { value, failure, busy, again } = useKept(key, () => tell(job), [JSON.stringify(draft.inspection), job.job?.last_sequence]);
  if (none) return <p class="empty">{phrase("Inspect a panel first; the advice comes from what was found.")}</p>;
  const told = value?.recommendation;
  const recorded = new Map((job.job?.panels ?? []).map((p) => [p.panel_id, p.advice]));
  const panels: PanelAdvice[] = value?.recorded ? [...recorded.values()].filter((a): a is PanelAdvice => !!a) : (told?.panels ?? []);
  const groups = told?.groups ?? [];
  return (
    <>
      {open && (
        <div class="band">
          <Mark shape="half">{phrase("Not on record yet")}</Mark>
          <p>{phrase("This is the advice on what was entered so far.")}</p>
          <a class="button" href={to("job", job.id, "inspect")}>
            {phrase("Record the inspection")}
          </a>
        </div>
      )}
      <Trouble failure={failure} again={again} panels={(draft.inspection.panels ?? []).map((p) => p.id ?? "")}>
        {told ? <p>{phrase("Below is the answer of the last time.")}</p> : null}
      </Trouble>
      {busy && !told && <p role="status">{phrase("Asking the rules …")}</p>}
      {groups.length > 0 && (
        <section class="band">
          <h2>{phrase("Where to test first")}</h2>
          <ul class="plain">
            {groups.map((g, i) => (
              <li key={i}>
                <a class="button" href={to("job", job.id, "trial", g.test_first ?? "")}>
                  {phrase("Test spot on {panel}", { panel: small(panelName(g.test_first ?? "")) })}
                </a>
                <p>
                  {parts("{ladder} for {panels}. {because}.", {
                    ladder: ladderWords(g.ladder),
                    panels: (g.panel_ids ?? []).map((p) => small(panelName(p))).join(", "),
                    because: <span lang="en">{big(g.because ?? "")}</span>,
                  })}
                </p>
              </li>
            ))}
          </ul>
        </section>
      )}
      <MeasureNext wanted={told?.measure_next} />
      <section aria-labelledby="panel-advice">
        <h2 id="panel-advice">{phrase("Panel by panel")}</h2>
        <div class="cards two">
          {panels.map((a) => (
            <PanelAdviceCard key={a.panel_id} advice={a} open={panels.length === 1} />
          ))}
        </div>
      </section>
      <Cautions cautions={told?.cautions} heading={phrase("Watch on the whole job")} />
    </>
  );
}
