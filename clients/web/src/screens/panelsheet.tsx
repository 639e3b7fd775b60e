import { change } from "../device/drafts";
import { choicesOf, factOf } from "../facts";
import { counted, panelOf, quantities, spotsFor, valuesAt, withPanel } from "../job/sheet";
import { WordChoice, YesNo } from "../parts/choice";
import { NumberEntry, Severity, TextEntry } from "../parts/entry";
import { body, partOfPanel } from "../parts/outline";
import { go, to } from "../route";
import type { Defect, Panel } from "../wire/contract";
import { figure, spread } from "../words/number";
import { big, panelName, word } from "../words/word";
import { type Ready, undoIn } from "./jobframe";
import { PaintEntry } from "./newjob";

const flags = [
  ["clean", "Washed, decontaminated and dry"],
  ["taped", "Edges, trim, badges and body lines taped"],
  ["in_sun", "In direct sun"],
  ["edge_or_line", "An edge, body line or raised trim in the area"],
  ["sensor_behind", "A sensor or camera behind the paint"],
  ["repaint_known", "Known to have been repainted"],
] as const;

// PanelSheet is one panel: its marks, its readings, and what else is known of it.
export function PanelSheet({ job, panel: id }: { job: Ready; panel: string }) {
  const panel: Panel = panelOf(job.draft, id) ?? { id };
  const name = panelName(id);
  const edit = (did: string, next: (p: Panel) => Panel) => change(job.name, `${name}: ${did}`, (d) => withPanel(d, id, partOfPanel(id), next));
  const order = body.map((p) => p.id);
  const next = order[order.indexOf(id) + 1];
  return (
    <div class="panel-sheet">
      <div class="heading">
        <h2>{name}</h2>
        <a class="button quiet" href={to("job", job.id, "inspect")}>
          All panels
        </a>
      </div>
      <Marks panel={panel} edit={edit} />
      <section aria-labelledby="readings">
        <h3 id="readings">Readings</h3>
        <ul class="plain rows">
          {quantities.map((q) => {
            const means = spotsFor(job.draft, "found", id, q).map((s) => valuesAt(job.draft, "found", id, q, s));
            const all = spread(means.flat());
            const { unit = "" } = factOf(q.fact);
            return (
              <li key={q.id}>
                <a href={to("job", job.id, "read", "found", id, q.id)}>
                  <b>{q.title}</b>
                  <span class="soft">{all ? `${counted(job.draft, "found", id, q)} readings, mean ${figure(all.mean)} ${unit}` : "not measured"}</span>
                </a>
              </li>
            );
          })}
        </ul>
      </section>
      <section aria-labelledby="surface">
        <h3 id="surface">Surface</h3>
        <WordChoice
          label="What the paint is on"
          fact="panel.substrate"
          prefix="SUBSTRATE"
          value={panel.substrate}
          onPick={(substrate) => edit("substrate", (p) => ({ ...p, substrate }))}
        />
        {flags.map(([key, label]) => (
          <YesNo key={key} label={label} value={panel[key]} onPick={(v) => edit(label.toLowerCase(), (p) => ({ ...p, [key]: v }))} />
        ))}
        <NumberEntry fact="climate.panel_c" value={panel.panel_c} onSet={(panel_c) => edit("panel temperature", (p) => ({ ...p, panel_c }))} />
        {panel.repaint_known && (
          <NumberEntry fact="paint.cured_days" value={panel.cured_days} onSet={(cured_days) => edit("days since repaint", (p) => ({ ...p, cured_days }))} />
        )}
        <NumberEntry fact="film.taken_um" value={panel.film_taken_um} onSet={(film_taken_um) => edit("film taken before", (p) => ({ ...p, film_taken_um }))} />
      </section>
      <details class="fold">
        <summary>Its paint, where it differs from the vehicle’s</summary>
        <PaintEntry age paint={panel.paint ?? {}} onSet={(paint) => edit("paint", (p) => ({ ...p, paint }))} />
      </details>
      {panelOf(job.draft, id) && (
        <button
          type="button"
          class="quiet"
          onClick={() => {
            change(job.name, `${name} left out`, (d) => ({ ...d, inspection: { ...d.inspection, panels: d.inspection.panels?.filter((p) => p.id !== id) } }));
            go("job", job.id, "inspect");
          }}
        >
          Leave this panel out
        </button>
      )}
      <div class="actions foot">
        <button type="button" class="quiet" disabled={!job.canUndo} onClick={() => undoIn(job.name)}>
          Undo
        </button>
        <a class="button" href={to("job", job.id, "inspect")}>
          All panels
        </a>
        {next && (
          <a class="button main" href={to("job", job.id, "inspect", next)}>
            {panelName(next)} next
          </a>
        )}
      </div>
    </div>
  );
}

type Edit = (did: string, next: (p: Panel) => Panel) => void;

function Marks({ panel, edit }: { panel: Panel; edit: Edit }) {
  const defects = panel.defects ?? [];
  const set = (i: number, did: string, next: Partial<Defect>) =>
    edit(did, (p) => ({ ...p, defects: (p.defects ?? []).with(i, { ...p.defects?.[i], ...next }) }));
  const open = choicesOf("defect.kind", "DEFECT_KIND").filter((k) => !defects.some((d) => d.kind === k));
  return (
    <section aria-labelledby="marks">
      <h3 id="marks">Marks</h3>
      {defects.length === 0 && <p class="hint">None entered. A panel without marks needs nothing entered here.</p>}
      <ul class="plain">
        {defects.map((d, i) => {
          const kind = word(d.kind, "DEFECT_KIND");
          return (
            <li key={d.kind} class="card">
              <Severity label={big(kind)} value={d.severity} onSet={(severity) => set(i, `severity of ${kind}`, { severity })} />
              <details class="fold inner">
                <summary>More about it</summary>
                <YesNo label="A fingernail catches in it" value={d.catches_nail} onPick={(catches_nail) => set(i, `fingernail in ${kind}`, { catches_nail })} />
                <TextEntry label="Note" value={d.note ?? ""} most={200} onSet={(note) => set(i, "note", { note })} />
              </details>
              <button
                type="button"
                class="quiet"
                aria-label={`Remove ${kind}`}
                onClick={() => edit(`removal of ${kind}`, (p) => ({ ...p, defects: defects.toSpliced(i, 1) }))}
              >
                Remove
              </button>
            </li>
          );
        })}
      </ul>
      <details class="fold" open={defects.length === 0}>
        <summary>Add a kind of mark</summary>
        <div class="chips">
          {open.map((kind) => (
            <button
              key={kind}
              type="button"
              class="chip-button"
              onClick={() => edit(word(kind, "DEFECT_KIND"), (p) => ({ ...p, defects: [...(p.defects ?? []), { kind: kind as Defect["kind"] }] }))}
            >
              {word(kind, "DEFECT_KIND")}
            </button>
          ))}
        </div>
      </details>
    </section>
  );
}
