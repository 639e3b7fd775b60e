import type { ComponentChildren } from "preact";
import type { SourceInfo } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big } from "../words/word";
import { Fold } from "./fold";

type Props = { what: ComponentChildren; figure: string; from: string[]; sources: SourceInfo[] | undefined };

// Sourced is a figure that says on a tap where it comes from: the reason of each rule, or the shop's own figure.
export function Sourced({ what, figure, from, sources }: Props) {
  const named = [...new Set(from.filter(Boolean))];
  if (named.length === 0)
    return (
      <p class="sourced plain">
        <span>{what}</span> <b>{figure}</b>
      </p>
    );
  return (
    <Fold
      kind="sourced"
      summary={
        <>
          <span>{what}</span> <b>{figure}</b>
        </>
      }
    >
      <Sources from={named} sources={sources} />
    </Fold>
  );
}

// Sources says where a figure comes from, each source once.
export function Sources({ from, sources }: Pick<Props, "from" | "sources">) {
  return (
    <ul>
      {[...new Set(from.filter(Boolean))].map((text) => (
        <li key={text}>
          <Source text={text} source={sources?.find((s) => s.text === text)} />
        </li>
      ))}
    </ul>
  );
}

function Source({ text, source }: { text: string; source: SourceInfo | undefined }) {
  const reason = source?.reason;
  if (!reason?.rule_id) return <p>{text === "measured" ? phrase("Measured by the shop.") : big(text)}</p>;
  return (
    <>
      <p>{reason.because}</p>
      <p class="place">
        {phrase("Rule {rule}, {place}", { rule: `${reason.table}/${reason.rule_id}`, place: `${reason.file}:${reason.line}` })}
        {reason.sentence && `; ${reason.sentence}`}
      </p>
    </>
  );
}
