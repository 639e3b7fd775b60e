import { change } from "../device/drafts";
import { TextEntry } from "../parts/entry";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";
import { ReadingRows } from "./readingrows";

// ReadingsForm corrects readings that were taken while working or after.
export function ReadingsForm({ job, panel }: { job: Ready; panel: string }) {
  const note = job.draft.work?.[panel]?.note ?? "";
  return (
    <>
      <ReadingRows job={job} sheet="work" panel={panel} />
      <TextEntry
        label={phrase("Note")}
        value={note}
        most={500}
        onSet={(text) => change(job.name, "", (d) => ({ ...d, work: { ...d.work, [panel]: { ...d.work?.[panel], note: text } } }))}
      />
    </>
  );
}
