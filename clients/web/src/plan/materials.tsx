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

const quantity = (n: number, unit: string | undefined): string => (unit === "pieces" ? phrase("{n} {n|piece|pieces}", { n }) : `${figure(n)} ${unit ?? ""}`);

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
          figure={[quantity(m.quantity ?? 0, m.unit), money(m.price)].filter(Boolean).join(", ")}
          from={[m.source ?? ""]}
          sources={plan.sources}
        />
      ))}
    </section>
  );
}
