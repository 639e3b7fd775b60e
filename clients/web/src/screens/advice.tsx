import { isUnrecorded } from "../device/drafts";
import { useKept } from "../device/kept";
import { asked } from "../job/record";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { PanelAdviceCard } from "../parts/paneladvice";
import { Cautions, MeasureNext } from "../parts/reasons";
import { Soon } from "../parts/soon";
import { to } from "../route";
import { call } from "../wire/call";
import { parts, phrase } from "../words/phrase";
import { big, ladderWords, panelName, small } from "../words/word";
import type { Ready } from "./jobframe";

// Advice is what to do on every panel, what to watch, and what would be worth measuring.
export function Advice({ job }: { job: Ready }) {
  const { draft } = job;
  const open = isUnrecorded(draft);
  const none = (draft.inspection.panels?.length ?? 0) === 0;
  const recorded = !open && !!job.job?.panels?.length;
  // What is not on record yet is advised as the rules would answer to it now.
  const key = none || recorded ? undefined : `advised ${job.name}`;
  const ask = async () => (await call("AdvisorService", "recommend", { inspection: asked(draft.inspection) })).recommendation;
  const { value, failure, busy, again } = useKept(key, ask, [JSON.stringify(draft.inspection)]);
  if (none) return <p class="empty">{phrase("Inspect a panel first; the advice comes from what was found.")}</p>;
  const told = recorded ? job.job?.advice : value;
  const panels = recorded ? (job.job?.panels ?? []).flatMap((p) => p.advice ?? []) : (value?.panels ?? []);
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
      <Trouble failure={recorded ? undefined : failure} again={again} panels={(draft.inspection.panels ?? []).map((p) => p.id ?? "")}>
        {told ? <p>{phrase("Below is the answer of the last time.")}</p> : null}
      </Trouble>
      {!recorded && busy && !told && <p role="status">{phrase("Asking the rules …")}</p>}
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
          {panels.map((a, i) => (
            <Soon key={a.panel_id} unless={i === 0}>
              <PanelAdviceCard advice={a} open={panels.length === 1} />
            </Soon>
          ))}
        </div>
      </section>
      <Soon>
        <Cautions cautions={told?.cautions} heading={phrase("Watch on the whole job")} />
      </Soon>
    </>
  );
}
