import type { FitPoint } from "../wire/contract";
import { duration, figure } from "../words/number";
import { phrase } from "../words/phrase";

// CurveTable says the curve in figures.
export function CurveTable({ points, at }: { points: FitPoint[]; at: number }) {
  return (
    <details class="fold">
      <summary>{phrase("The curve as a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls */}
      <div class="scroll tall" tabIndex={0} role="region" aria-label={phrase("The curve as a table")}>
        <table>
          <caption>{phrase("Every choice that no other beats in both hours and result")}</caption>
          <thead>
            <tr>
              <th scope="col">{phrase("Likely hours of work")}</th>
              <th scope="col">{phrase("Result in % of the full")}</th>
            </tr>
          </thead>
          <tbody>
            {points.map((p, i) => (
              <tr key={i}>
                <th scope="row">{duration(p.work_min ?? 0)}</th>
                <td class={i === at ? "here" : ""}>
                  {figure(p.result_pct ?? 0)}
                  {i === at && ` ◂ ${phrase("this plan")}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
