import { change } from "../device/drafts";
import { choicesOf, factOf } from "../facts";
import { quantities } from "../job/quantities";
import { counted, panelOf, spotsFor, valuesAt, withPanel } from "../job/sheet";
import { WordChoice, YesNo } from "../parts/choice";
import { NumberEntry, Severity, TextEntry } from "../parts/entry";
import { Fold } from "../parts/fold";
import { body, partOfPanel } from "../parts/outline";
import { Soon } from "../parts/soon";
import { PaintEntry } from "../parts/vehicle";
import { go, to } from "../route";
import type { Defect, Panel } from "../wire/contract";
import { figure, spread } from "../words/number";
import { phrase } from "../words/phrase";
import { big, panelName, small, word } from "../words/word";
import { AskedOfPanel } from "./asked";
import { type Ready, undoIn } from "./jobframe";

const flags = [
  ["clean", () => phrase("Washed, decontaminated and dry")],
  ["taped", () => phrase("Edges, trim, badges and body lines taped")],
  ["in_sun", () => phrase("In direct sun")],
  ["edge_or_line", () => phrase("An edge, body line or raised trim in the area")],
  ["sensor_behind", () => phrase("A sensor or camera behind the paint")],
  ["repaint_known", () => phrase("Known to have been repainted")],
] as const;

// PanelSheet is one panel: its marks, its readings, and what else is known of it.
export function PanelSheet({ job, panel: id }: { job: Ready; panel: string }) {
  const panel: Panel = panelOf(job.draft, id) ?? { id };
  const name = panelName(id);
  const edit = (did: string, next: (p: Panel) => Panel) =>
    change(job.name, phrase("{what}: {did}", { what: name, did }), (d) => withPanel(d, id, partOfPanel(id), next));
  const order = body.map((p) => p.id);
  const next = order[order.indexOf(id) + 1];
  return (
    <div class="panel-sheet">
      <div class="heading">
        <h2>{name}</h2>
        <a class="button quiet" href={to("job", job.id, "inspect")}>
          {phrase("All panels")}
        </a>
      </div>
      <Marks panel={panel} edit={edit} />
      <section aria-labelledby="readings">
        <h3 id="readings">{phrase("Readings")}</h3>
        <ul class="plain rows">
          {quantities.map((q) => {
            const means = spotsFor(job.draft, "found", id, q).map((s) => valuesAt(job.draft, "found", id, q, s));
            const all = spread(means.flat());
            const { unit = "" } = factOf(q.fact);
            return (
              <li key={q.id}>
                <a href={to("job", job.id, "read", "found", id, q.id)}>
                  <b>{q.title}</b>
                  <span class="soft">
                    {all
                      ? phrase("{n} {n|reading|readings}, mean {mean} {unit}", { n: counted(job.draft, "found", id, q), mean: figure(all.mean), unit })
                      : phrase("not measured")}
                  </span>
                </a>
              </li>
            );
          })}
        </ul>
      </section>
      <section aria-labelledby="surface">
        <h3 id="surface">{phrase("Surface")}</h3>
        <Soon>
          <WordChoice
            label={phrase("What the paint is on")}
            fact="panel.substrate"
            prefix="SUBSTRATE"
            value={panel.substrate}
            onPick={(substrate) => edit(phrase("substrate"), (p) => ({ ...p, substrate }))}
          />
        </Soon>
        <Soon>
          {flags.map(([key, label]) => (
            <YesNo key={key} label={label()} value={panel[key]} onPick={(v) => edit(small(label()), (p) => ({ ...p, [key]: v }))} />
          ))}
        </Soon>
        <Soon>
          <NumberEntry fact="climate.panel_c" value={panel.panel_c} onSet={(panel_c) => edit(phrase("panel temperature"), (p) => ({ ...p, panel_c }))} />
          {panel.repaint_known && (
            <NumberEntry
              fact="paint.cured_days"
              value={panel.cured_days}
              onSet={(cured_days) => edit(phrase("days since repaint"), (p) => ({ ...p, cured_days }))}
            />
          )}
          <NumberEntry
            fact="film.taken_um"
            value={panel.film_taken_um}
            onSet={(film_taken_um) => edit(phrase("film taken before"), (p) => ({ ...p, film_taken_um }))}
          />
        </Soon>
      </section>
      <Soon>
        <AskedOfPanel job={job} panel={id} />
      </Soon>
      <Fold summary={phrase("Its paint, where it differs from the vehicle’s")}>
        <PaintEntry age paint={panel.paint ?? {}} onSet={(paint) => edit(phrase("paint"), (p) => ({ ...p, paint }))} />
      </Fold>
      {panelOf(job.draft, id) && (
        <button
          type="button"
          class="quiet"
          onClick={() => {
            change(job.name, phrase("{panel} left out", { panel: name }), (d) => ({
              ...d,
              inspection: { ...d.inspection, panels: d.inspection.panels?.filter((p) => p.id !== id) },
            }));
            go("job", job.id, "inspect");
          }}
        >
          {phrase("Leave this panel out")}
        </button>
      )}
      <div class="actions foot">
        <button type="button" class="quiet" disabled={!job.canUndo} onClick={() => undoIn(job.name)}>
          {phrase("Undo")}
        </button>
        <a class="button" href={to("job", job.id, "inspect")}>
          {phrase("All panels")}
        </a>
        {next && (
          <a class="button main" href={to("job", job.id, "inspect", next)}>
            {phrase("{what} next", { what: panelName(next) })}
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
      <h3 id="marks">{phrase("Marks")}</h3>
      {defects.length === 0 && <p class="hint">{phrase("None entered. A panel without marks needs nothing entered here.")}</p>}
      <ul class="plain">
        {defects.map((d, i) => {
          const kind = word(d.kind, "DEFECT_KIND");
          return (
            <li key={d.kind} class="card">
              <Severity label={big(kind)} value={d.severity} onSet={(severity) => set(i, phrase("severity of {mark}", { mark: kind }), { severity })} />
              <Fold kind="fold inner" summary={phrase("More about it")}>
                <YesNo
                  label={phrase("A fingernail catches in it")}
                  value={d.catches_nail}
                  onPick={(catches_nail) => set(i, phrase("fingernail in {mark}", { mark: kind }), { catches_nail })}
                />
                <TextEntry label={phrase("Note")} value={d.note ?? ""} most={200} onSet={(note) => set(i, phrase("note"), { note })} />
              </Fold>
              <button
                type="button"
                class="quiet"
                aria-label={phrase("Remove {what}", { what: kind })}
                onClick={() => edit(phrase("removal of {mark}", { mark: kind }), (p) => ({ ...p, defects: defects.toSpliced(i, 1) }))}
              >
                {phrase("Remove")}
              </button>
            </li>
          );
        })}
      </ul>
      <Fold open={defects.length === 0} summary={phrase("Add a kind of mark")}>
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
      </Fold>
    </section>
  );
}
