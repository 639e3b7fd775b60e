import { Mark } from "../parts/marks";
import type { RuleEffect, RuleEffects } from "../wire/contract";
import { phrase } from "../words/phrase";
import { RuleName } from "./places";

// grave effects are those that a person has to accept before they come into force.
export const grave = (e: RuleEffect): boolean => e.direction === "RULE_EFFECT_DIRECTION_STRONGER" || e.direction === "RULE_EFFECT_DIRECTION_LESS";

// Direction says in a word and a shape whether an answer is more or less than it was.
export function Direction({ of }: { of: RuleEffect["direction"] }) {
  switch (of) {
    case "RULE_EFFECT_DIRECTION_STRONGER":
      return <Mark shape="danger">{phrase("stronger answer")}</Mark>;
    case "RULE_EFFECT_DIRECTION_LESS":
      return <Mark shape="danger">{phrase("told no more")}</Mark>;
    case "RULE_EFFECT_DIRECTION_MILDER":
      return <Mark shape="down">{phrase("milder answer")}</Mark>;
    case "RULE_EFFECT_DIRECTION_MORE":
      return <Mark shape="note">{phrase("tells more")}</Mark>;
    default:
      return <Mark shape="half">{phrase("another answer")}</Mark>;
  }
}

// said puts what a table gives into words; where it has no answer the service says "no rule".
const said = (answer: string | undefined): string => (answer === "no rule" ? phrase("no rule answers") : (answer ?? ""));

// whereOf says which bounds hold all together. Each may have a comma or an "or" of its own.
function whereOf(bounds: string[]): string {
  if (bounds.length === 0) return phrase("Everywhere.");
  if (bounds.length === 1) return phrase("Where {bounds}.", { bounds: bounds[0] ?? "" });
  return phrase("Where all of this holds: {bounds}.", { bounds: bounds.join("; ") });
}

// EffectList tells each region of input whose answer changes: what was answered, what would be, and where. The grave ones come first.
export function EffectList({ effects }: { effects: RuleEffect[] }) {
  const sorted = effects.toSorted((a, b) => Number(grave(b)) - Number(grave(a)));
  return (
    <ul class="plain effects">
      {sorted.map((e, i) => (
        <li key={i} class={`effect ${grave(e) ? "grave" : ""}`}>
          <p class="effect-head">
            <Direction of={e.direction} />
            <span class="soft">{phrase("table {table}", { table: e.table ?? "" })}</span>
          </p>
          <p class="move">
            <span>{said(e.before)}</span>
            <span class="becomes">
              <span aria-hidden="true">→</span>
              <span class="hidden">{phrase("becomes")}</span>
            </span>
            <b>{said(e.after)}</b>
          </p>
          <p>{whereOf(e.where ?? [])}</p>
          {(e.unless_rules ?? []).length > 0 && (
            <p class="hint">
              {phrase("But not where one of these rules comes first:")}{" "}
              {(e.unless_rules ?? []).map((id, k) => (
                <span key={id}>
                  {k > 0 && ", "}
                  <RuleName table={e.table} id={id} />
                </span>
              ))}
            </p>
          )}
          {e.example && <p class="hint">{phrase("For example: {example}", { example: e.example })}</p>}
        </li>
      ))}
    </ul>
  );
}

// Effects tells what texts do to answers, against the set in force.
export function Effects({ effects }: { effects: RuleEffects | undefined }) {
  if (!effects) return <p>{phrase("No answer changes: for every possible input these rules answer as those in force do.")}</p>;
  const undecided = effects.undecided_tables ?? [];
  return (
    <>
      {effects.accept_stronger && (
        <p>{phrase("Marked with a triangle: more is taken off than before, or something is told no more. Saving asks you to accept just these.")}</p>
      )}
      <EffectList effects={effects.effects ?? []} />
      {effects.more ? <p>{phrase("And {n} more.", { n: effects.more })}</p> : null}
      {undecided.length > 0 && (
        <p>
          <Mark shape="care">{phrase("Not looked at to the end: {tables}. More may change there.", { tables: undecided.join(", ") })}</Mark>
        </p>
      )}
    </>
  );
}
