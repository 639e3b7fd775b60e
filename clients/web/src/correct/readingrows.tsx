import { quantities } from "../job/quantities";
import { counted, type SheetName } from "../job/sheet";
import { to } from "../route";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";

// ReadingRows lead to the keypad of each scale of a sheet.
export function ReadingRows({ job, sheet, panel }: { job: Ready; sheet: SheetName; panel: string }) {
  return (
    <>
      <h2>{phrase("Readings")}</h2>
      <ul class="plain rows">
        {quantities.map((q) => (
          <li key={q.id}>
            <a href={to("job", job.id, "read", sheet, panel, q.id)}>
              <b>{q.title}</b>
              <span class="soft">{phrase("{n} {n|reading|readings}", { n: counted(job.draft, sheet, panel, q) })}</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
