import { factOf } from "../facts";
import type { FactInfo, RuleTable } from "../wire/contract";
import { figure } from "../words/number";
import { phrase } from "../words/phrase";

// namesIn finds the facts and shared names that a condition speaks of, each once.
function namesIn(when: string): string[] {
  const bare = when.replace(/"[^"]*"|'[^']*'/g, '""'); // a word in quotes is no name
  return [...new Set(bare.match(/\b[a-z]\w*\.[a-z]\w*/g) ?? [])];
}

// Asked tells what the facts of a condition mean, in what unit and between what bounds.
export function Asked({ when, lets }: { when: string; lets: NonNullable<RuleTable["lets"]> }) {
  const direct = namesIn(when);
  const shared = lets.filter((l) => direct.includes(`let.${l.name}`));
  const all = new Set([...direct, ...shared.flatMap((l) => namesIn(l.formula ?? ""))]);
  const known = [...all].map(factOf).filter((f) => f.label);
  if (known.length === 0 && shared.length === 0) return null;
  return (
    <details class="why">
      <summary>{phrase("What it asks about")}</summary>
      <dl class="asked">
        {shared.map((l) => (
          <div key={l.name}>
            <dt>
              <code>let.{l.name}</code>
            </dt>
            <dd>
              <code>{l.formula}</code>
            </dd>
          </div>
        ))}
        {known.map((f) => (
          <div key={f.name}>
            <dt>
              <b>{f.label}</b> <code>{f.name}</code>
            </dt>
            <dd>{[rangeOf(f), f.meaning].filter(Boolean).join(". ")}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

function rangeOf(f: FactInfo): string {
  const words = f.words ?? [];
  if (words.length > 0) return words.join(f.ordered ? " < " : ", ");
  if (f.min === undefined || f.max === undefined) return f.unit ?? "";
  return phrase("{min} to {max}", { min: figure(Number(f.min), 3), max: figure(Number(f.max), 3) }) + (f.unit ? ` ${f.unit}` : "");
}
