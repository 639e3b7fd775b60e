import { change } from "../device/drafts";
import { BoundedEntry } from "../parts/bounded";
import { Choice } from "../parts/choice";
import { TextEntry } from "../parts/entry";
import type { Ready } from "../screens/jobframe";
import type { Progress } from "../wire/contract";
import { phrase } from "../words/phrase";

// ProgressForm corrects how far a step was, how long it took, and what was noted.
export function ProgressForm({ job }: { job: Ready }) {
  const p = job.draft.correcting?.progress ?? {};
  const edit = (did: string, next: Partial<Progress>) =>
    change(job.name, did, (d) => (d.correcting ? { ...d, correcting: { ...d.correcting, progress: { ...d.correcting.progress, ...next } } } : d));
  return (
    <>
      <Choice
        label={phrase("How far it was")}
        choices={[
          { value: "STEP_STATE_UNDER_WAY", says: phrase("under way") },
          { value: "STEP_STATE_DONE", says: phrase("done") },
          { value: "STEP_STATE_LEFT_OUT", says: phrase("left out") },
        ]}
        value={p.state ?? ""}
        onPick={(state) => edit(phrase("how far it was"), { state: state as Progress["state"] })}
      />
      <BoundedEntry
        label={phrase("Minutes worked")}
        value={p.minutes}
        least={0}
        most={1440}
        unit="min"
        onSet={(minutes) => edit(phrase("minutes"), { minutes })}
      />
      <BoundedEntry
        label={phrase("Sections worked so far")}
        value={p.sections_done}
        least={0}
        most={500}
        whole
        onSet={(sections_done) => edit(phrase("sections"), { sections_done })}
      />
      <TextEntry
        label={phrase("Note")}
        value={p.note ?? ""}
        most={500}
        hint={p.state === "STEP_STATE_LEFT_OUT" ? phrase("Needed: why the step was left out.") : undefined}
        onSet={(note) => edit("", { note })}
      />
    </>
  );
}
