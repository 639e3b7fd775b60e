import { useKept } from "../device/kept";
import { eventsOf } from "../job/job";
import { onlyRead } from "../job/sheet";
import { isProven, ladderOf, leftSays, whyOf, workSays } from "../job/worked";
import { BeforeAfter } from "../parts/beforeafter";
import { LadderMark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { Soon } from "../parts/soon";
import type { Job, JobEvent, JobPanel } from "../wire/contract";
import { day } from "../words/day";
import { locale } from "../words/locale";
import { figure, spread } from "../words/number";
import { phrase } from "../words/phrase";
import { given, panelName, word } from "../words/word";
import type { Ready } from "./jobframe";

// RecordSheet is the paper for the owner: what was found, what was done and why, what was measured, what was left.
export function RecordSheet({ job }: { job: Ready }) {
  const { value: events, failure, again } = useKept(job.job ? `events ${job.name}` : undefined, () => eventsOf(job.name), [job.job?.last_sequence]);
  if (!job.job?.panels?.length) return <p class="empty">{phrase("There is nothing on record yet.")}</p>;
  const closings = (events ?? []).flatMap((e) => [e.finished, e.handed_over]).flatMap((c) => (c?.note ? [c.note] : []));
  const record = job.job;
  const panels = job.job.panels;
  return (
    <article class="paper">
      <div class="actions no-print">
        <button type="button" class="main" onClick={() => print()}>
          {phrase("Print")}
        </button>
        <a class="button" href={`/reports/${job.id}?locale=${locale()}`}>
          {phrase("The full record")}
        </a>
      </div>
      <Trouble failure={failure} again={again} />
      <header>
        <h2>{phrase("Record of the work")}</h2>
        <p>{headSays([job.draft.vehicleLabel, record.label].filter(Boolean).join(", "), record)}</p>
      </header>
      {panels.map((p, i) => (
        <Soon key={p.panel_id} unless={i === 0}>
          <PanelRecord job={record} panel={p} events={events ?? []} />
        </Soon>
      ))}
      {closings.length > 0 && (
        <section>
          <h3>{phrase("Left on purpose, and care")}</h3>
          {closings.map((n, i) => (
            <p key={i}>{n}</p>
          ))}
        </section>
      )}
      <p class="hint">
        {phrase(
          "Gloss is in gloss units (GU), haze in haze units (HU), film in micrometres (µm), all layers together. Film figures are bounds and estimates: a gauge reads only where it was set down.",
        )}
      </p>
    </article>
  );
}

function headSays(vehicle: string, job: Job): string {
  const [from, to, stage] = [day(job.create_time), day(job.update_time), word(job.stage, "JOB_STAGE")];
  return from === to
    ? phrase("{vehicle} · {from} · {stage}", { vehicle, from, stage })
    : phrase("{vehicle} · {from} to {to} · {stage}", { vehicle, from, to, stage });
}

function PanelRecord({ job, panel, events }: { job: Job; panel: JobPanel; events: JobEvent[] }) {
  const { found, verdict, advice, film, outcomes = [] } = panel;
  const ladder = ladderOf(job, panel);
  const before = spread(onlyRead(found?.film).flatMap((s) => s.total_um ?? []));
  const why = whyOf(panel, ladder);
  const left = leftSays(panel, events);
  return (
    <section class="panel-record">
      <h3>{panelName(panel.panel_id ?? "")}</h3>
      <dl>
        <div>
          <dt>{phrase("Found")}</dt>
          <dd>
            {(found?.defects ?? []).map(markSays).join("; ") || phrase("no marks noted")}
            {before && phrase("; film {mean} µm on average over {n} {n|reading|readings}", { mean: figure(before.mean, 0), n: before.n })}
          </dd>
        </div>
        {given(advice?.ladder) && advice?.ladder !== ladder && (
          <div>
            <dt>{phrase("Advised")}</dt>
            <dd>
              <LadderMark ladder={advice?.ladder} />
            </dd>
          </div>
        )}
        {ladder && (
          <div>
            <dt>{phrase("Ladder")}</dt>
            <dd>
              <LadderMark ladder={ladder} />{" "}
              {isProven(panel, ladder) ? phrase("proven on {n} {n|test spot|test spots}", { n: panel.trials?.length ?? 0 }) : phrase("not tried on this panel")}
            </dd>
          </div>
        )}
        {why && (
          <div>
            <dt>{phrase("Why")}</dt>
            <dd lang="en">{why}</dd>
          </div>
        )}
        <div>
          <dt>{phrase("Work done")}</dt>
          <dd>{workSays(job, panel)}</dd>
        </div>
        {film?.taken && (
          <div>
            <dt>{phrase("Film taken")}</dt>
            <dd>
              {film.measured
                ? phrase("{low} to {high} µm, measured", takenOf(film.taken))
                : phrase("{low} to {high} µm, as expected of the steps", takenOf(film.taken))}
            </dd>
          </div>
        )}
        {(left.length > 0 || (advice?.left_on_purpose ?? []).length > 0) && (
          <div>
            <dt>{phrase("Left")}</dt>
            {left.map((says) => (
              <dd key={says}>{says}</dd>
            ))}
            {(advice?.left_on_purpose ?? []).map((says) => (
              <dd key={says} lang="en">
                {says}
              </dd>
            ))}
          </div>
        )}
      </dl>
      {verdict?.gloss && <BeforeAfter name={phrase("Gloss at {angle}°, on the test spot", { angle: verdict.gloss.angle ?? 0 })} change={verdict.gloss} />}
      {verdict?.haze && <BeforeAfter name={phrase("Haze, on the test spot")} change={verdict.haze} />}
      {outcomes.map((o, i) => (
        <p key={i}>{outcomeSays(o)}</p>
      ))}
    </section>
  );
}

type Outcome = NonNullable<JobPanel["outcomes"]>[number];
type Mark = NonNullable<NonNullable<JobPanel["found"]>["defects"]>[number];

const markSays = (d: Mark): string => {
  const mark = word(d.kind, "DEFECT_KIND");
  return d.severity === undefined ? mark : phrase("{mark}, severity {severity} of 5", { mark, severity: d.severity });
};

const takenOf = ({ low_um = 0, high_um = 0 }: NonNullable<NonNullable<JobPanel["film"]>["taken"]>) => ({ low: low_um, high: high_um });

function outcomeSays({ angle, before = 0, seen = 0, spots = 0, promised, unit = "" }: Outcome): string {
  const scale = angle ? phrase("Gloss at {angle}°", { angle }) : phrase("Haze");
  const figures = { scale, before, seen, spots, unit };
  return promised === undefined
    ? phrase("{scale} over the panel: {before} before, {seen} after ({spots} {spots|spot|spots}) {unit}", figures)
    : phrase("{scale} over the panel: {before} before, {seen} after ({spots} {spots|spot|spots}); the test spot promised {promised} {unit}", {
        ...figures,
        promised,
      });
}
