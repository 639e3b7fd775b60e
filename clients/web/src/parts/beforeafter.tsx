import type { MeasuredChange } from "../wire/contract";
import { figure, signed } from "../words/number";

// BeforeAfter draws two dots on one scale, and the interval in which the second lies beside the first. The scale does not begin at
// zero, since nothing here is a length.
export function BeforeAfter({ name, change }: { name: string; change: MeasuredChange }) {
  const { before = 0, after = 0, low = 0, high = 0, mean = 0, unit = "", compared } = change;
  if (!compared) return null;
  const ends = [before, after, before + low, before + high];
  const room = Math.max(1, (Math.max(...ends) - Math.min(...ends)) * 0.25);
  const from = Math.min(...ends) - room;
  const x = (v: number) => 20 + ((v - from) / (Math.max(...ends) + room - from)) * 280;
  const says = `${name}: ${figure(before)} before, ${figure(after)} after, change ${signed(mean)} ${unit}, between ${signed(low)} and ${signed(high)}`;
  return (
    <figure class="interval">
      <figcaption>
        <b>{name}</b>: {figure(before)} → {figure(after)} {unit}, change {signed(mean)} ({signed(low)} to {signed(high)}, {figure(change.confidence_pct ?? 0)} %
        confidence)
      </figcaption>
      <svg viewBox="0 0 320 62" role="img" aria-label={says}>
        <line x1="10" x2="310" y1="34" y2="34" class="axis" />
        <line x1={x(before + low)} x2={x(before + high)} y1="34" y2="34" class="range" />
        <line x1={x(before + low)} x2={x(before + low)} y1="27" y2="41" class="range" />
        <line x1={x(before + high)} x2={x(before + high)} y1="27" y2="41" class="range" />
        <circle cx={x(before)} cy="34" r="6" class="dot open" />
        <circle cx={x(after)} cy="34" r="6" class="dot" />
        <text x={x(before)} y="18" text-anchor="middle">
          before
        </text>
        <text x={x(after)} y="58" text-anchor="middle">
          after
        </text>
      </svg>
    </figure>
  );
}
