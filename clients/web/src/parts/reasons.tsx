import { to } from "../route";
import type { Caution, Reason, Wanted } from "../wire/contract";
import { figure } from "../words/number";
import { big, panelName, word } from "../words/word";
import { Mark } from "./marks";

// Why shows the rule behind an answer: its reason in a sentence, and on demand each condition and the place in the files.
export function Why({ reason, open = false }: { reason: Reason | undefined; open?: boolean }) {
  if (!reason?.rule_id && !reason?.because) return <p class="hint">No rule told why.</p>;
  return (
    <details class="why" open={open}>
      <summary>{reason.because || "Why"}</summary>
      {(reason.conditions ?? []).length === 0 ? (
        reason.sentence && <p>{big(reason.sentence)}.</p>
      ) : (
        <ul>
          {(reason.conditions ?? []).map((c, i) => (
            <li key={i}>
              {c.label}: <b>{c.value}</b>
              {c.wants ? `; the rule asks for ${c.wants}` : ""}
              {c.margin !== undefined ? ` (${figure(c.margin, 2)}${c.unit ? ` ${c.unit}` : ""} to the edge)` : ""}
            </li>
          ))}
        </ul>
      )}
      <p class="place">
        Rule <RuleLink reason={reason} />, {reason.file}:{reason.line}
      </p>
    </details>
  );
}

// RuleLink leads to the rule where the rules in force are shown.
function RuleLink({ reason }: { reason: Reason | undefined }) {
  return (
    <a href={to("rules", "table", reason?.table ?? "", reason?.rule_id ?? "")}>
      {reason?.table}/{reason?.rule_id}
    </a>
  );
}

// Cautions are told gravest first, as they come. Those of danger stand open; the others are one tap away.
export function Cautions({ cautions, heading }: { cautions: Caution[] | undefined; heading: string }) {
  if (!cautions?.length) return null;
  const grave = cautions.filter((c) => c.level === "CAUTION_LEVEL_DANGER");
  const others = cautions.filter((c) => c.level !== "CAUTION_LEVEL_DANGER");
  return (
    <section class="cautions">
      <h3>{heading}</h3>
      <CautionList cautions={grave} />
      {others.length > 0 && grave.length === 0 && <CautionList cautions={others} />}
      {others.length > 0 && grave.length > 0 && (
        <details class="fold">
          <summary>{others.length === 1 ? "1 more to mind" : `${others.length} more to mind`}</summary>
          <CautionList cautions={others} />
        </details>
      )}
    </section>
  );
}

function CautionList({ cautions }: { cautions: Caution[] }) {
  return (
    <ul class="plain">
      {cautions.map((c, i) => {
        const level = word(c.level, "CAUTION_LEVEL");
        return (
          <li key={i} class={`caution ${level}`}>
            <details>
              <summary>
                <Mark shape={level === "danger" || level === "care" ? level : "note"}>{`${big(level)}, ${word(c.topic, "CAUTION_TOPIC")}`}</Mark>
                <span>{c.do}</span>
              </summary>
              <p>{c.reason?.because}</p>
              <p class="place">
                Rule <RuleLink reason={c.reason} />, {c.reason?.file}:{c.reason?.line}
              </p>
            </details>
          </li>
        );
      })}
    </ul>
  );
}

// MeasureNext lists what would be worth learning, the most telling first.
export function MeasureNext({ wanted }: { wanted: Wanted[] | undefined }) {
  if (!wanted?.length) return null;
  return (
    <section class="measure">
      <h3>Worth measuring next</h3>
      <ol>
        {wanted.map((w, i) => (
          <li key={i}>
            <b>{big(w.learn ?? "")}</b>
            {(w.panel_ids ?? []).length > 0 && <span> ({(w.panel_ids ?? []).map(panelName).join(", ")})</span>}
            {w.could_change && <p class="hint">{big(w.could_change)}.</p>}
          </li>
        ))}
      </ol>
    </section>
  );
}
