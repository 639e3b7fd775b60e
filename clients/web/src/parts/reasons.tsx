import { to } from "../route";
import type { Caution, Reason, Wanted } from "../wire/contract";
import { figure } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { big, panelName, token, word } from "../words/word";
import { Fold } from "./fold";
import { Mark } from "./marks";

// Why shows the rule behind an answer: its reason in a sentence, and on demand each condition and the place in the files.
export function Why({ reason, open = false }: { reason: Reason | undefined; open?: boolean }) {
  if (!reason?.rule_id && !reason?.because) return <p class="hint">{phrase("No rule told why.")}</p>;
  return (
    <Fold kind="why" open={open} summary={reason.because ? <span lang="en">{reason.because}</span> : phrase("Why")}>
      {(reason.conditions ?? []).length === 0 ? (
        reason.sentence && <p lang="en">{big(reason.sentence)}.</p>
      ) : (
        <ul>
          {(reason.conditions ?? []).map((c, i) => (
            <li key={i}>
              <span lang="en">
                {c.label}: <b>{c.value}</b>
              </span>
              {c.wants && parts("; the rule asks for {what}", { what: <span lang="en">{c.wants}</span> })}
              {c.margin !== undefined && phrase(" ({margin} to the edge)", { margin: `${figure(c.margin, 2)} ${c.unit ?? ""}`.trim() })}
            </li>
          ))}
        </ul>
      )}
      <Place reason={reason} />
    </Fold>
  );
}

function Place({ reason }: { reason: Reason }) {
  return (
    <p class="place">
      {parts("Rule {rule}, {place}", {
        rule: <a href={to("rules", "table", reason.table ?? "", reason.rule_id ?? "")}>{`${reason.table}/${reason.rule_id}`}</a>,
        place: `${reason.file}:${reason.line}`,
      })}
    </p>
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
        <Fold summary={phrase("{n} more to mind", { n: others.length })}>
          <CautionList cautions={others} />
        </Fold>
      )}
    </section>
  );
}

function CautionList({ cautions }: { cautions: Caution[] }) {
  return (
    <ul class="plain">
      {cautions.map((c, i) => {
        const level = token(c.level, "CAUTION_LEVEL");
        return (
          <li key={i} class={`caution ${level}`}>
            <Fold
              kind="said"
              summary={
                <>
                  <Mark
                    shape={level === "danger" || level === "care" ? level : "note"}
                  >{`${big(word(c.level, "CAUTION_LEVEL"))}, ${word(c.topic, "CAUTION_TOPIC")}`}</Mark>
                  <span lang="en">{c.do}</span>
                </>
              }
            >
              <p lang="en">{c.reason?.because}</p>
              {c.reason && <Place reason={c.reason} />}
            </Fold>
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
      <h3>{phrase("Worth measuring next")}</h3>
      <ol>
        {wanted.map((w, i) => (
          <li key={i}>
            <b lang="en">{big(w.learn ?? "")}</b>
            {(w.panel_ids ?? []).length > 0 && <span> ({(w.panel_ids ?? []).map(panelName).join(", ")})</span>}
            {w.could_change && (
              <p class="hint" lang="en">
                {big(w.could_change)}.
              </p>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
