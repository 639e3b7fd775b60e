import type { MeasuredChange } from "../wire/contract";
import { figure, signed } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { hasInterval, NoInterval } from "./interval";

// BeforeAfter draws two dots on one scale, and the interval in which the second lies beside the first. The scale does not begin at
// zero, since nothing here is a length.
export function BeforeAfter({ name, change }: { name: string; change: MeasuredChange }) {
  const { before = 0, after = 0, low = 0, high = 0, mean = 0, unit = "", compared } = change;
  if (!compared) return null;
  if (!hasInterval(change)) return <NoInterval change={change} title={<b>{name}</b>} />;
  const ends = [before, after, before + low, before + high];
  const room = Math.max(1, (Math.max(...ends) - Math.min(...ends)) * 0.25);
  const from = Math.min(...ends) - room;
  const x = (v: number) => 20 + ((v - from) / (Math.max(...ends) + room - from)) * 280;
  const figures = { before, after, change: signed(mean), unit, low: signed(low), high: signed(high) };
  const says = phrase("{name}: {before} before, {after} after, change {change} {unit}, between {low} and {high}", { name, ...figures });
  return (
    <figure class="interval">
      <figcaption>
        {parts("{name}: {before} → {after} {unit}, change {change} ({low} to {high}, {confidence} % confidence)", {
          ...figures,
          name: <b>{name}</b>,
          confidence: figure(change.confidence_pct ?? 0),
        })}
      </figcaption>
      <svg viewBox="0 0 320 62" role="img" aria-label={says}>
        <line x1="10" x2="310" y1="34" y2="34" class="axis" />
        <line x1={x(before + low)} x2={x(before + high)} y1="34" y2="34" class="range" />
        <line x1={x(before + low)} x2={x(before + low)} y1="27" y2="41" class="range" />
        <line x1={x(before + high)} x2={x(before + high)} y1="27" y2="41" class="range" />
        <circle cx={x(before)} cy="34" r="6" class="dot open" />
        <circle cx={x(after)} cy="34" r="6" class="dot" />
        <text x={x(before)} y="18" text-anchor="middle">
          {phrase("before")}
        </text>
        <text x={x(after)} y="58" text-anchor="middle">
          {phrase("after")}
        </text>
      </svg>
    </figure>
  );
}
