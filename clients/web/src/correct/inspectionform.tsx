import { change } from "../device/drafts";
import { WordChoice } from "../parts/choice";
import { to } from "../route";
import { AskedOfVehicle } from "../screens/asked";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";
import { panelName } from "../words/word";

// InspectionForm leads to the sheet of each panel, and asks what the owner wants.
export function InspectionForm({ job }: { job: Ready }) {
  const { inspection } = job.draft;
  return (
    <>
      <h2>{phrase("Panels")}</h2>
      <ul class="plain rows">
        {(inspection.panels ?? []).map((p) => (
          <li key={p.id}>
            <a href={to("job", job.id, "inspect", p.id ?? "")}>
              <b>{panelName(p.id ?? "")}</b>
              <span class="soft">{phrase("open the sheet")}</span>
            </a>
          </li>
        ))}
      </ul>
      <AskedOfVehicle job={job} />
      <WordChoice
        label={phrase("What the owner wants")}
        fact="goal.level"
        prefix="GOAL_LEVEL"
        value={inspection.goal?.level}
        open={phrase("not asked yet")}
        onPick={(level) => change(job.name, phrase("goal"), (d) => ({ ...d, inspection: { ...d.inspection, goal: { ...d.inspection.goal, level } } }))}
      />
    </>
  );
}
