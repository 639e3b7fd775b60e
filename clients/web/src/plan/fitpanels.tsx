import type { Fit } from "../job/plan";
import { LadderMark, Mark } from "../parts/marks";
import type { FitPanel } from "../wire/contract";
import { duration, figure } from "../words/number";
import { phrase } from "../words/phrase";
import { big, panelName } from "../words/word";

// FitPanels lists what each panel gets; first the ones that get less than the full ladder, with what that costs in result.
export function FitPanels({ fit }: { fit: Fit }) {
  const panels = fit.answer.panels ?? [];
  const less = panels.filter((p) => p.ladder !== p.full);
  const whole = panels.filter((p) => p.ladder === p.full);
  return (
    <section aria-labelledby="fit-panels">
      <h3 id="fit-panels">{phrase("What each panel gets")}</h3>
      <ul class="plain cards one">
        {less.map((p) => (
          <li key={p.panel_id} class="card">
            <h4>{panelName(p.panel_id ?? "")}</h4>
            <p class="marks-row">
              <LadderMark ladder={p.ladder} />
              <Mark shape="care">{phrase("less than in full")}</Mark>
            </p>
            <p class="marks-row">
              <span class="soft">{phrase("in full")}</span> <LadderMark ladder={p.full} />
            </p>
            <p>{costs(p)}</p>
            {p.leaves && <p>{big(p.leaves)}.</p>}
          </li>
        ))}
        {whole.map((p) => (
          <li key={p.panel_id} class="card">
            <h4>{panelName(p.panel_id ?? "")}</h4>
            <p class="marks-row">
              <LadderMark ladder={p.ladder} />
              <Mark shape="done">{phrase("in full")}</Mark>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

const costs = (p: FitPanel): string =>
  phrase("Takes off {grades} of {full} {full|grade|grades} of marks and saves {time}; weight for the owner’s eye {seen} of 10.", {
    grades: figure(p.grades ?? 0),
    full: p.full_grades ?? 0,
    time: duration(p.saves_min ?? 0),
    seen: p.seen ?? 0,
  });
