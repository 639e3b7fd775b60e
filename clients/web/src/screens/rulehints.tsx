import { useState } from "preact/hooks";
import { useKept } from "../device/kept";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { go, to } from "../route";
import { edits, fetchFiles, put, textsOf } from "../rules/edits";
import { EffectList } from "../rules/effects";
import { Place, RuleName } from "../rules/places";
import { Examples } from "../rules/replaytold";
import { call } from "../wire/call";
import type { RuleHint } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { duration, figure, signed } from "../words/number";
import { phrase } from "../words/phrase";

// A rule is no longer than so many lines; the bound of a hint stands within them.
const reach = 15;

// withBound is a text with the bound of a hint moved, or undefined where the bound is not found as it was written.
export function withBound(text: string, hint: RuleHint): string | undefined {
  const lines = text.split("\n");
  const from = Math.max(0, (hint.line ?? 1) - 1);
  for (let i = from; i < Math.min(lines.length, from + reach); i++) {
    const line = lines[i] ?? "";
    if (!hint.before || !line.includes(hint.before)) continue;
    lines[i] = line.replace(hint.before, () => hint.after ?? "");
    return lines.join("\n");
  }
  return undefined;
}

// RuleHints names bounds that outcomes on record speak against. Nothing applies them; one can be tried in the editor.
export function RuleHints() {
  const { value, failure, busy, again } = useKept("rule hints", () => call("HistoryService", "listRuleHints", {}));
  return (
    <>
      <div class="heading">
        <h1>{phrase("Hints from the record")}</h1>
        <a class="button quiet" href={to("rules")}>
          {phrase("All tables")}
        </a>
      </div>
      <p>{phrase("Bounds of the rules in force that the outcomes of trials speak against. Nothing is changed by itself.")}</p>
      <Trouble failure={failure} again={again} />
      {busy && !value && <p role="status">{phrase("Going through the record …")}</p>}
      {value && (value.hints ?? []).length === 0 && (
        <p>
          <Mark shape="note">{phrase("No hint: no bound has enough outcomes that speak against it.")}</Mark>
        </p>
      )}
      <ul class="plain cards two">
        {(value?.hints ?? []).map((h, i) => (
          <li key={i} class="card">
            <Hint of={h} />
          </li>
        ))}
      </ul>
      {(value?.limits ?? []).length > 0 && (
        <>
          <h2>{phrase("What hints cannot tell")}</h2>
          <ul>
            {(value?.limits ?? []).map((l) => (
              <li key={l}>{l}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function Hint({ of: h }: { of: RuleHint }) {
  const [failure, fail] = useState<Failure>();
  const test = async () => {
    try {
      const files = await fetchFiles();
      const name = h.file ?? "";
      const next = withBound(textsOf(files, edits.now)[name] ?? "", h);
      if (next === undefined) say(phrase("The bound is not written that way in the file any more; change it by hand."));
      else put(name, next, files.files[name]);
      go("rules", "file", ...name.split("/"), String(h.line ?? 1));
    } catch (thrown) {
      fail(toFailure(thrown));
    }
  };
  return (
    <>
      <h2>
        {h.table}: {h.rule_id || `let.${h.let}`}
      </h2>
      <p class="move">
        <code>{h.before}</code>
        <span class="becomes">
          <span aria-hidden="true">→</span>
          <span class="hidden">{phrase("becomes")}</span>
        </span>
        <code>
          <b>{h.after}</b>
        </code>
      </p>
      <p>
        {phrase("Of {panels} {panels|panel|panels} that would have started otherwise {new} speak for it, {old} against it, {open} tell nothing.", {
          panels: h.panels ?? 0,
          new: h.for_change ?? 0,
          old: h.against ?? 0,
          open: h.open ?? 0,
        })}{" "}
        {phrase("Sure to {pct} %.", { pct: figure(h.surely_pct ?? 0, 2) })}
      </p>
      <dl>
        <div>
          <dt>{phrase("trials saved")}</dt>
          <dd>{signed(h.trials_saved ?? 0, 0)}</dd>
        </div>
        <div>
          <dt>{phrase("minutes saved, of {n} timed {n|trial|trials}", { n: h.trials_timed ?? 0 })}</dt>
          <dd>{(h.minutes_saved ?? 0) < 0 ? `−${duration(-(h.minutes_saved ?? 0))}` : duration(h.minutes_saved ?? 0)}</dd>
        </div>
        <div>
          <dt>{phrase("film saved, by expectation")}</dt>
          <dd>{signed(h.film_saved_um ?? 0)} µm</dd>
        </div>
      </dl>
      <Examples of={h.examples ?? []} />
      {(h.effects ?? []).length > 0 && (
        <details class="why">
          <summary>{phrase("What the change would do to answers: {n} {n|region|regions}", { n: (h.effects ?? []).length + (h.more_effects ?? 0) })}</summary>
          <EffectList effects={h.effects ?? []} />
        </details>
      )}
      <p>
        {h.rule_id && (
          <>
            <RuleName table={h.table} id={h.rule_id} />,{" "}
          </>
        )}
        <Place file={h.file} line={h.line} />
      </p>
      <Trouble failure={failure} />
      <div class="actions">
        <button type="button" onClick={() => void test()}>
          {phrase("Try it in the editor")}
        </button>
      </div>
    </>
  );
}
