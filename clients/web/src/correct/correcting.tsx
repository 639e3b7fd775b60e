import { useEffect, useState } from "preact/hooks";
import { change, dropDraft, openDraft, pageOf } from "../device/drafts";
import { waiting } from "../device/outbox";
import { useStore } from "../device/store";
import { jobStore } from "../job/opening";
import { TextEntry } from "../parts/entry";
import { say, Trouble } from "../parts/notice";
import { go, partOf, to } from "../route";
import { type Ready, undoIn } from "../screens/jobframe";
import { PanelSheet } from "../screens/panelsheet";
import { Read } from "../screens/read";
import { vehicle } from "../titled";
import type { Failure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { Changes } from "./changes";
import { insteadOf, sendCorrection } from "./draft";
import { InspectionForm } from "./inspectionform";
import { kindOf } from "./kinds";
import { changesOf } from "./lines";
import { ProgressForm } from "./progressform";
import { ReadingsForm } from "./readingsform";
import { TrialForm } from "./trialform";

// Correcting are the screens of one correction. The sheets of entry are those of the job; they write to the correction's own draft.
export function Correcting({ id, stop, place }: { id: string; stop: string; place: string[] }) {
  const key = `jobs/${id}`;
  const name = key.slice(0, key.indexOf("~"));
  const page = useStore(pageOf(key));
  const job = useStore(jobStore(name));
  const mine = useStore(waiting).filter((e) => e.job === name);
  const [looked, look] = useState(false);
  useEffect(() => void openDraft(key).finally(() => look(true)), [key]);
  useEffect(() => vehicle.set(page?.draft.vehicleLabel ?? ""), [page?.draft.vehicleLabel]);
  if (!page) {
    return looked ? (
      <>
        <h1>{phrase("Correction")}</h1>
        <p class="empty">
          {phrase("There is no such correction on this device any more.")}{" "}
          <a href={to("job", partOf(name), "events")}>{phrase("What happened, and corrections")}</a>
        </p>
      </>
    ) : (
      <p role="status">{phrase("Opening the correction …")}</p>
    );
  }
  const ready: Ready = { name: key, draft: page.draft, canUndo: page.before.length > 0, job, mine, refresh: () => undefined, id };
  if (stop === "read") return <Read job={ready} place={place} />;
  if (stop === "inspect" && place[0]) return <PanelSheet key={place[0]} job={ready} panel={place[0]} />;
  return <Home job={ready} base={name} />;
}

function Home({ job, base }: { job: Ready; base: string }) {
  const [refused, refuse] = useState<Failure>();
  const { draft } = job;
  const correcting = draft.correcting;
  if (!correcting) return null;
  const { sequence, was, why } = correcting;
  const now = insteadOf(draft);
  const differs = changesOf(was, now).length > 0;
  const send = async () => {
    const failure = await sendCorrection(base, { sequence, why: why.trim(), ...now });
    refuse(failure);
    if (failure) return;
    say(phrase("Correction kept; it is sent when the service is reached."));
    go("job", partOf(base), "events");
  };
  return (
    <>
      <div class="heading">
        <h1>
          {phrase("Correction")} <small>{draft.vehicleLabel}</small>
        </h1>
        <a class="button quiet" href={to("job", partOf(base), "events")}>
          {phrase("What happened, and corrections")}
        </a>
      </div>
      <p>
        {phrase("Event {n}:", { n: sequence })} {kindOf(was)}
      </p>
      <div class="split">
        <div>
          {was.inspection && <InspectionForm job={job} />}
          {was.trial && <TrialForm job={job} panel={was.trial.panel_id ?? ""} />}
          {was.readings && <ReadingsForm job={job} panel={was.readings.panel_id ?? ""} />}
          {was.progress && <ProgressForm job={job} />}
        </div>
        <section aria-labelledby="differs">
          <h2 id="differs">{phrase("What changes")}</h2>
          <Changes was={was} now={now} />
          <TextEntry
            label={phrase("Why it was wrong")}
            value={why}
            onSet={(text) => change(job.name, "", (d) => (d.correcting ? { ...d, correcting: { ...d.correcting, why: text } } : d))}
            most={500}
            hint={phrase("Needed: it stands on record beside the correction.")}
          />
          <Trouble failure={refused} panels={draft.inspection.panels?.map((p) => p.id ?? "")} />
        </section>
      </div>
      <div class="actions foot">
        <button type="button" class="quiet" onClick={() => void dropDraft(job.name).then(() => go("job", partOf(base), "events"))}>
          {phrase("Throw it away")}
        </button>
        <button type="button" class="quiet" disabled={!job.canUndo} onClick={() => undoIn(job.name)}>
          {phrase("Undo")}
        </button>
        <button type="button" class="main" disabled={!differs || why.trim() === ""} onClick={() => void send()}>
          {phrase("Record the correction")}
        </button>
      </div>
    </>
  );
}
