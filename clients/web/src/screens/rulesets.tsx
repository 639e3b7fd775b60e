import { useKept } from "../device/kept";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { go, to } from "../route";
import { around, difference } from "../rules/difference";
import { type Files, fetchFiles, put } from "../rules/edits";
import { Effects } from "../rules/effects";
import { call } from "../wire/call";
import type { RuleSet } from "../wire/contract";
import { moment } from "../words/day";
import { phrase } from "../words/phrase";

const shown = 12; // characters of a hash

function wayWords(way: RuleSet["way"]): string {
  switch (way) {
    case "RULE_SET_WAY_START":
      return phrase("the service started on it");
    case "RULE_SET_WAY_RELOAD":
      return phrase("the folder was edited");
    case "RULE_SET_WAY_UPDATE":
      return phrase("saved by a call");
    case "RULE_SET_WAY_LAST_GOOD":
      return phrase("the folder did not load, so the last good set was taken");
    default:
      return "";
  }
}

// RuleSets lists which set was in force when, the newest first.
export function RuleSets() {
  const { value, failure, again } = useKept("rule sets", () => call("RulesService", "listRuleSets", { page_size: 200 }));
  return (
    <>
      <div class="heading">
        <h1>{phrase("Rules over time")}</h1>
        <a class="button quiet" href={to("rules")}>
          {phrase("All tables")}
        </a>
      </div>
      <Trouble failure={failure} again={again} />
      <ol class="plain rows">
        {(value?.rule_sets ?? []).map((s, i) => (
          <li key={i}>
            <a href={to("rules", "set", s.rule_set ?? "")}>
              <b>{moment(s.in_force_since)}</b>
              <span class="soft">
                {[wayWords(s.way), (s.changed_files ?? []).join(", "), s.in_force ? phrase("in force") : "", (s.rule_set ?? "").slice(0, shown)]
                  .filter(Boolean)
                  .join(" · ")}
              </span>
            </a>
          </li>
        ))}
      </ol>
      {value && !value.rule_sets?.length && <p>{phrase("No set has come into force yet that is remembered.")}</p>}
    </>
  );
}

async function tell(hash: string) {
  const [set, files] = await Promise.all([call("RulesService", "getRuleSet", { rule_set: hash }), fetchFiles()]);
  const texts = Object.fromEntries((set.files ?? []).map((f) => [f.name, f.text ?? ""]));
  const checked = await call("RulesService", "checkRules", { files: texts, with_effects: true });
  return { set, texts, files, checked };
}

// RuleSetThen shows an earlier set beside the files of today: what differs, and what bringing it back would do to answers.
export function RuleSetThen({ hash }: { hash: string }) {
  const { value, failure, again } = useKept(`rule set ${hash}`, () => tell(hash));
  return (
    <>
      <div class="heading">
        <h1>{phrase("Rules of {time}", { time: moment(value?.set.in_force_since) || hash.slice(0, shown) })}</h1>
        <a class="button quiet" href={to("rules", "sets")}>
          {phrase("Rules over time")}
        </a>
      </div>
      <Trouble failure={failure} again={again} />
      {!value && !failure && <p role="status">{phrase("Fetching the rules …")}</p>}
      {value && <Beside {...value} />}
    </>
  );
}

// ofSet tells files that decide from notes, and from the record of what a folder was copied from.
const ofSet = (name: string): boolean => name.endsWith(".yaml") && name !== "base.yaml";

function Beside({ set, texts, files, checked }: Awaited<ReturnType<typeof tell>>) {
  const names = [...new Set([...Object.keys(texts), ...Object.keys(files.files)])].filter(ofSet).sort();
  const differ = names.filter((n) => texts[n] !== files.files[n]?.text);
  return (
    <>
      <p class="place">{set.rule_set}</p>
      {set.in_force && (
        <p>
          <Mark shape="done">{phrase("This set is in force.")}</Mark>
        </p>
      )}
      {!set.in_force && (
        <>
          <h2>{phrase("What bringing it back would do to answers")}</h2>
          {(checked.problems ?? []).length > 0 ? (
            <p>{phrase("It does not load with this version: {why}", { why: checked.problems?.[0]?.message ?? "" })}</p>
          ) : (
            <Effects effects={checked.effects} />
          )}
        </>
      )}
      <h2>{phrase("What the files of today have that it had otherwise")}</h2>
      {differ.length === 0 && <p>{phrase("The files are the same.")}</p>}
      {differ.map((n) => (
        <Differs key={n} name={n} then={texts[n]} now={files.files[n]?.text} />
      ))}
      {differ.length > 0 && files.folder && differ.every((n) => texts[n] !== undefined && files.files[n]) && (
        <div class="actions">
          <button type="button" onClick={() => bringBack(texts, files, differ)}>
            {phrase("Take its text into the editor")}
          </button>
        </div>
      )}
    </>
  );
}

function bringBack(texts: Record<string, string>, files: Files, names: string[]): void {
  for (const n of names) put(n, texts[n] ?? "", files.files[n]);
  go("rules", "try");
}

function Differs({ name, then, now }: { name: string; then: string | undefined; now: string | undefined }) {
  const lines = around(difference(then ?? "", now ?? ""));
  return (
    <details class="fold" open>
      <summary>
        {name}
        {then === undefined && ` (${phrase("new since")})`}
        {now === undefined && ` (${phrase("gone since")})`}
      </summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways has to be reached by the keyboard */}
      <div class="lines" role="group" tabIndex={0} aria-label={phrase("Difference of {name}", { name })}>
        {lines.map((l, i) =>
          l ? (
            <div key={i} class={l.kind}>
              <span aria-hidden="true">{l.kind === "gone" ? "−" : l.kind === "new" ? "+" : " "}</span>
              {l.kind !== "same" && <span class="hidden">{l.kind === "gone" ? phrase("then:") : phrase("now:")}</span>} {l.text}
            </div>
          ) : (
            <div key={i} class="gap">
              …
            </div>
          ),
        )}
      </div>
    </details>
  );
}
