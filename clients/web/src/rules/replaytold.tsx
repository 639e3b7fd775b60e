import { Mark } from "../parts/marks";
import { partOf, to } from "../route";
import type { ReplayReport, ReplayTally } from "../wire/contract";
import { duration, signed } from "../words/number";
import { phrase } from "../words/phrase";
import { panelName, word } from "../words/word";

const few = 8;

// ReplayTold is the report of a replay: what changes, what the outcomes say of it, and what such a comparison cannot tell.
export function ReplayTold({ report: r }: { report: ReplayReport }) {
  const all = r.all ?? {};
  return (
    <div class="told">
      <p>
        {phrase(
          "{decisions} {decisions|decision|decisions} on record by {sets} {sets|set|sets} of rules, about {panels} {panels|panel|panels}: advice {advice}, verdicts {verdicts}.",
          {
            decisions: r.decisions ?? 0,
            sets: r.rule_sets ?? 0,
            panels: r.panels ?? 0,
            advice: r.advice ?? 0,
            verdicts: r.verdicts ?? 0,
          },
        )}
      </p>
      <h3>{phrase("What would be answered otherwise")}</h3>
      <Changes tally={all} />
      <h3>{phrase("What the outcomes say")}</h3>
      <Outcomes tally={all} />
      <Moves moves={r.moves ?? []} />
      <Classes classes={r.classes ?? []} />
      <h3>{phrase("What such a comparison cannot tell")}</h3>
      <ul>
        {(r.unfollowed ?? []).map((u) => (
          <li key={u.field}>
            {phrase("{field} differs on {panels} {panels|panel|panels}; its consequences are not followed.", { field: u.field ?? "", panels: u.panels ?? 0 })}
          </li>
        ))}
        {!!r.unknown_sets && (
          <li>
            {phrase("{n} {n|panel was|panels were} decided by a set that is not kept; changed numbers of policy and removal are not followed there.", {
              n: r.unknown_sets,
            })}
          </li>
        )}
        {!!r.strange_facts && (
          <li>{phrase("{n} {n|fact|facts} on record {n|is|are} not known any more and {n|counts|count} as not measured.", { n: r.strange_facts })}</li>
        )}
        {(r.limits ?? []).map((l) => (
          <li key={l}>{l}</li>
        ))}
      </ul>
    </div>
  );
}

// changesOf counts what would be answered otherwise, leaving out what stays.
const changesOf = (t: ReplayTally): [string, number][] =>
  (
    [
      [phrase("another start"), t.starts],
      [phrase("another limit"), t.limits],
      [phrase("another readiness"), t.readiness],
      [phrase("another ladder"), t.ladders],
      [phrase("other settings"), t.settings],
      [phrase("other cautions"), t.cautions],
      [phrase("another verdict"), t.verdicts],
    ] as [string, number | undefined][]
  ).filter((row): row is [string, number] => !!row[1]);

function Changes({ tally }: { tally: ReplayTally }) {
  const changes = changesOf(tally);
  if (changes.length === 0) return <Mark shape="done">{phrase("Every answer on record would have been the same.")}</Mark>;
  return (
    <dl>
      {changes.map(([says, n]) => (
        <div key={says}>
          <dt>{says}</dt>
          <dd>{phrase("{n} {n|panel|panels}", { n })}</dd>
        </div>
      ))}
    </dl>
  );
}

// Outcomes draws for which answer the trials on record speak, and what would have been spared.
function Outcomes({ tally: t }: { tally: ReplayTally }) {
  const rows: [string, string, number][] = [
    ["new", phrase("for the new answer"), t.for_new ?? 0],
    ["old", phrase("for the old answer"), t.for_old ?? 0],
    ["same", phrase("the same in the end"), t.for_neither ?? 0],
    ["open", phrase("open: only another course could tell"), t.open ?? 0],
  ];
  const most = Math.max(...rows.map((r) => r[2]));
  if (most === 0) return <p>{phrase("No trial on record speaks of these changes.")}</p>;
  return (
    <>
      <ul class="plain bars-of">
        {rows.map(([kind, says, n]) => (
          <li key={kind} class={kind}>
            <span>{says}</span>
            <span class="bar" aria-hidden="true">
              {n > 0 && <i style={{ width: `${(100 * n) / most}%` }} />}
            </span>
            <b>{phrase("{n} {n|panel|panels}", { n })}</b>
          </li>
        ))}
      </ul>
      <dl>
        <Saved says={phrase("trials saved")} value={signed(t.trials_saved ?? 0, 0)} below={(t.trials_saved ?? 0) < 0} />
        <Saved
          says={phrase("minutes saved, of {n} timed {n|trial|trials}", { n: t.trials_timed ?? 0 })}
          value={(t.minutes_saved ?? 0) < 0 ? `−${duration(-(t.minutes_saved ?? 0))}` : duration(t.minutes_saved ?? 0)}
          below={(t.minutes_saved ?? 0) < 0}
        />
        <Saved says={phrase("film saved, by expectation")} value={`${signed(t.film_saved_um ?? 0)} µm`} below={(t.film_saved_um ?? 0) < 0} />
      </dl>
    </>
  );
}

function Saved({ says, value, below }: { says: string; value: string; below: boolean }) {
  return (
    <div>
      <dt>{says}</dt>
      <dd>
        {value}
        {below && <span class="soft"> {phrase("(costs more)")}</span>}
      </dd>
    </div>
  );
}

// Moves lists the changed answers table by table, with panels where one can look.
function Moves({ moves }: { moves: NonNullable<ReplayReport["moves"]> }) {
  if (moves.length === 0) return null;
  const more = moves.slice(few);
  return (
    <>
      <h3>{phrase("Changes, table by table")}</h3>
      <MoveList moves={moves.slice(0, few)} />
      {more.length > 0 && (
        <details class="why">
          <summary>{phrase("{n} more {n|change|changes}", { n: more.length })}</summary>
          <MoveList moves={more} />
        </details>
      )}
    </>
  );
}

function MoveList({ moves }: { moves: NonNullable<ReplayReport["moves"]> }) {
  return (
    <ul class="plain effects">
      {moves.map((m, i) => (
        <li key={i} class="effect">
          <p class="effect-head">
            <b>{m.table}</b>
            <span class="soft">{phrase("{n} {n|panel|panels}", { n: m.panels ?? 0 })}</span>
          </p>
          {(m.before || m.after) && (
            <p class="move">
              <span>{m.before || phrase("no rule answers")}</span>
              <span class="becomes">
                <span aria-hidden="true">→</span>
                <span class="hidden">{phrase("becomes")}</span>
              </span>
              <b>{m.after || phrase("no rule answers")}</b>
            </p>
          )}
          <Examples of={m.examples ?? []} />
        </li>
      ))}
    </ul>
  );
}

// Examples leads to the jobs on record.
export function Examples({ of }: { of: { decision?: string; panel_id?: string }[] }) {
  if (of.length === 0) return null;
  return (
    <p class="hint">
      {phrase("For example:")}{" "}
      {of.map((e, i) => (
        <span key={i}>
          {i > 0 && ", "}
          <a href={to("job", partOf((e.decision ?? "").split("/events/")[0] ?? ""), "advice")}>{panelName(e.panel_id ?? "")}</a>
        </span>
      ))}
    </p>
  );
}

function Classes({ classes }: { classes: NonNullable<ReplayReport["classes"]> }) {
  if (classes.length === 0) return null;
  return (
    <>
      <h3>{phrase("Changes, by kind of panel")}</h3>
      <ul class="plain effects">
        {classes.slice(0, few).map((c, i) => {
          const t = c.tally ?? {};
          return (
            <li key={i} class="effect">
              <p>
                <b>
                  {[
                    word(c.softness, "SOFTNESS") ? phrase("{softness} paint", { softness: word(c.softness, "SOFTNESS") }) : phrase("softness not known"),
                    word(c.defect, "DEFECT_KIND") || phrase("kind of mark not known"),
                    c.severities ? phrase("severity {range}", { range: c.severities }) : "",
                  ]
                    .filter(Boolean)
                    .join(", ")}
                </b>
              </p>
              <p>
                {phrase("Of {panels} {panels|panel|panels}", { panels: t.panels ?? 0 })}:{" "}
                {changesOf(t)
                  .map(([says, n]) => `${says} ${n}`)
                  .join(", ")}
                .
              </p>
              <p class="hint">
                {phrase("For the new answer {new}, for the old {old}, the same {same}, open {open}.", {
                  new: t.for_new ?? 0,
                  old: t.for_old ?? 0,
                  same: t.for_neither ?? 0,
                  open: t.open ?? 0,
                })}
              </p>
            </li>
          );
        })}
      </ul>
      {classes.length > few && <p>{phrase("And {n} more.", { n: classes.length - few })}</p>}
    </>
  );
}
