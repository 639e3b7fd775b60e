import { Sourced } from "../parts/sourced";
import type { WorkPlan } from "../wire/contract";
import { money } from "../words/money";
import { figure } from "../words/number";
import { phrase } from "../words/phrase";

const kinds = (): Record<string, string> => ({
  pad: phrase("pad"),
  liquid: phrase("liquid"),
  towel: phrase("towel"),
  "panel-wipe": phrase("panel wipe"),
  "masking-tape": phrase("masking tape"),
});

const units = (): Record<string, string> => ({ pieces: phrase("pieces") });

// Materials is what is used up.
export function Materials({ plan }: { plan: WorkPlan }) {
  const lines = plan.materials ?? [];
  if (lines.length === 0) return null;
  return (
    <section class="card" aria-labelledby="materials">
      <h2 id="materials">{phrase("Used up")}</h2>
      {lines.map((m) => (
        <Sourced
          key={m.id}
          what={
            <>
              {m.id} <small>{kinds()[m.kind ?? ""] ?? m.kind}</small>
            </>
          }
          figure={`${figure(m.quantity ?? 0)} ${units()[m.unit ?? ""] ?? m.unit}${m.price ? `, ${money(m.price)}` : ""}`}
          from={[m.source ?? ""]}
          sources={plan.sources}
        />
      ))}
    </section>
  );
}
