import { change } from "../device/drafts";
import { quantities } from "../job/quantities";
import { counted, type SheetName, setValues, spotsFor, valuesAt } from "../job/sheet";
import { partOfPanel } from "../parts/outline";
import { Pad } from "../parts/pad";
import { to } from "../route";
import { parts, phrase } from "../words/phrase";
import { panelName } from "../words/word";
import { type Ready, undoIn } from "./jobframe";

const backOf: Record<SheetName, string> = { found: "inspect", trial: "trial", work: "work" };

// Read takes readings on one panel, scale by scale.
export function Read({ job, place: [sheetName = "found", panel = "", quantity = "film"] }: { job: Ready; place: string[] }) {
  const sheet = (sheetName in backOf ? sheetName : "found") as SheetName;
  const q = quantities.find((x) => x.id === quantity) ?? quantities[0];
  if (!q) return null;
  const what = sheet === "found" ? phrase("as found") : sheet === "trial" ? phrase("after the test spot") : phrase("from the work");
  return (
    <div class="reading">
      <div class="heading">
        <h1>{parts("{panel} {what}", { panel: panelName(panel), what: <small>{what}</small> })}</h1>
      </div>
      <nav class="stops scales" aria-label={phrase("Scale")}>
        {quantities.map((x) => (
          <a key={x.id} href={to("job", job.id, "read", sheet, panel, x.id)} aria-current={x.id === q.id ? "page" : undefined}>
            {x.short}
            {counted(job.draft, sheet, panel, x) > 0 && <b> · {counted(job.draft, sheet, panel, x)}</b>}
          </a>
        ))}
      </nav>
      <Pad
        key={q.id}
        title={q.title}
        fact={q.fact}
        spots={spotsFor(job.draft, sheet, panel, q)}
        valuesOf={(spot) => valuesAt(job.draft, sheet, panel, q, spot)}
        onSet={(spot, values, did) =>
          change(job.name, phrase("{what}: {did}", { what: q.short, did }), (d) => setValues(d, sheet, panel, partOfPanel(panel), q, spot, values))
        }
        onUndo={job.canUndo ? () => undoIn(job.name) : undefined}
        back={to("job", job.id, backOf[sheet], panel)}
      />
    </div>
  );
}
