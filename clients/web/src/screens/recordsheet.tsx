import { useKept } from "../device/kept";
import { eventsOf } from "../job/job";
import { onlyRead } from "../job/sheet";
import { BeforeAfter } from "../parts/beforeafter";
import { LadderMark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import type { JobPanel } from "../wire/contract";
import { day, figure, spread } from "../words/number";
import { big, given, ladderWords, panelName, stepsOf, word } from "../words/word";
import type { Ready } from "./jobframe";

// RecordSheet is the paper for the owner: what was found, what was done and why, what was measured, what was left.
export function RecordSheet({ job }: { job: Ready }) {
  const { value: events, failure, again } = useKept(job.job ? `events ${job.name}` : undefined, () => eventsOf(job.name), [job.job?.last_sequence]);
  if (!job.job?.panels?.length) return <p class="empty">There is nothing on record yet.</p>;
  const closings = (events ?? []).flatMap((e) => [e.finished, e.handed_over]).flatMap((c) => (c?.note ? [c.note] : []));
  const panels = job.job.panels;
  return (
    <article class="paper">
      <div class="actions no-print">
        <button type="button" class="main" onClick={() => print()}>
          Print
        </button>
        <a class="button" href={`/reports/${job.id}`}>
          The full record
        </a>
      </div>
      <Trouble failure={failure} again={again} />
      <header>
        <h2>Record of the work</h2>
        <p>
          {job.draft.vehicleLabel}
          {job.job.label && `, ${job.job.label}`} · {day(job.job.create_time)} to {day(job.job.update_time)} · {word(job.job.stage, "JOB_STAGE")}
        </p>
      </header>
      {panels.map((p) => (
        <PanelRecord key={p.panel_id} panel={p} />
      ))}
      {closings.length > 0 && (
        <section>
          <h3>Left on purpose, and care</h3>
          {closings.map((n, i) => (
            <p key={i}>{n}</p>
          ))}
        </section>
      )}
      <p class="hint">
        Gloss is in gloss units (GU), haze in haze units (HU), film in micrometres (µm), all layers together. Film figures are bounds and estimates: a gauge
        reads only where it was set down.
      </p>
    </article>
  );
}

function PanelRecord({ panel }: { panel: JobPanel }) {
  const { found, verdict, advice, film, outcomes = [] } = panel;
  const done = (panel.steps ?? []).filter((s) => s.state === "STEP_STATE_DONE").map((s) => word(s.step, "STEP"));
  const ladder = given(panel.ladder) ? panel.ladder : advice?.ladder;
  const before = spread(onlyRead(found?.film).flatMap((s) => s.total_um ?? []));
  const said = verdict?.proven ? [verdict.reason] : [...(advice?.defects ?? []).map((d) => d.reason), advice?.ladder_reason];
  const why = [...new Set(said.flatMap((r) => (r?.because ? [r.because] : [])))].join(" ");
  return (
    <section class="panel-record">
      <h3>{panelName(panel.panel_id ?? "")}</h3>
      <dl>
        <div>
          <dt>Found</dt>
          <dd>
            {(found?.defects ?? [])
              .map((d) => `${word(d.kind, "DEFECT_KIND")}${d.severity === undefined ? "" : `, severity ${figure(d.severity)} of 5`}`)
              .join("; ") || "no marks noted"}
            {before && `; film ${figure(before.mean, 0)} µm on average over ${before.n} readings`}
          </dd>
        </div>
        <div>
          <dt>Done</dt>
          <dd>{done.length ? big(done.join(", then ")) : stepsOf(ladder).length ? `planned: ${ladderWords(ladder)}` : "nothing: left alone"}</dd>
        </div>
        {why && (
          <div>
            <dt>Why</dt>
            <dd>{why}</dd>
          </div>
        )}
        {given(ladder) && (
          <div>
            <dt>Ladder</dt>
            <dd>
              <LadderMark ladder={ladder} />{" "}
              {verdict?.proven ? `proven on ${panel.trials?.length === 1 ? "a test spot" : `${panel.trials?.length} test spots`}` : "not tried on this panel"}
            </dd>
          </div>
        )}
        {film?.taken && (
          <div>
            <dt>Film taken</dt>
            <dd>
              {figure(film.taken.low_um ?? 0)} to {figure(film.taken.high_um ?? 0)} µm, {film.measured ? "measured" : "as expected of the steps"}
            </dd>
          </div>
        )}
        {(advice?.left_on_purpose ?? []).length > 0 && (
          <div>
            <dt>Left</dt>
            <dd>{(advice?.left_on_purpose ?? []).join(" ")}</dd>
          </div>
        )}
      </dl>
      {verdict?.gloss && <BeforeAfter name={`Gloss at ${verdict.gloss.angle}°, on the test spot`} change={verdict.gloss} />}
      {verdict?.haze && <BeforeAfter name="Haze, on the test spot" change={verdict.haze} />}
      {outcomes.map((o, i) => (
        <p key={i}>
          {o.angle ? `Gloss at ${o.angle}°` : "Haze"} over the panel: {figure(o.before ?? 0)} before, {figure(o.seen ?? 0)} after ({o.spots} spots)
          {o.promised !== undefined && `; the test spot promised ${figure(o.promised)}`} {o.unit}
        </p>
      ))}
    </section>
  );
}
