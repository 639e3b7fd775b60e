import type { MeasuredChange } from "../wire/contract";
import { figure, signed } from "../words/number";

// Interval draws a measured change as a dot with its interval beside zero and beside the smallest change that is worth having. It
// is never a bar from zero: what matters is where the ends lie.
export function Interval({ change, name }: { change: MeasuredChange | undefined; name: string }) {
  if (!change || change.low === undefined || change.high === undefined || change.mean === undefined) return null;
  const { low, high, mean, unit = "", worth = 0 } = change;
  const mark = name === "Haze" ? -worth : worth;
  const ends = [low, high, 0, mark];
  const pad = (Math.max(...ends) - Math.min(...ends)) * 0.12 || 1;
  const from = Math.min(...ends) - pad;
  const x = (v: number) => 10 + ((v - from) / (Math.max(...ends) + pad - from)) * 300;
  const says = `${name}: ${figure(change.before ?? 0)} before, ${figure(change.after ?? 0)} after; change ${signed(mean)} ${unit}, between ${signed(low)} and ${signed(high)} with ${figure(change.confidence_pct ?? 0)} % confidence`;
  return (
    <figure class="interval">
      <figcaption>
        <b>
          {name}
          {change.angle ? ` at ${change.angle}°` : ""}
        </b>{" "}
        {figure(change.before ?? 0)} → {figure(change.after ?? 0)} {unit}, {signed(mean)} ({signed(low)} to {signed(high)})
      </figcaption>
      <svg viewBox="0 0 320 56" role="img" aria-label={says}>
        <line x1={x(0)} x2={x(0)} y1="6" y2="38" class="axis" />
        <text x={x(0)} y="52" text-anchor="middle">
          0
        </text>
        {worth > 0 && <line x1={x(mark)} x2={x(mark)} y1="6" y2="38" class="worth" />}
        {worth > 0 && Math.abs(x(mark) - x(0)) > 70 && (
          <text x={x(mark)} y="52" text-anchor="middle">
            worth it
          </text>
        )}
        <line x1={x(low)} x2={x(high)} y1="22" y2="22" class="range" />
        <line x1={x(low)} x2={x(low)} y1="14" y2="30" class="range" />
        <line x1={x(high)} x2={x(high)} y1="14" y2="30" class="range" />
        <circle cx={x(mean)} cy="22" r="6" class="dot" />
      </svg>
      {change.note && <p class="hint">{change.note}</p>}
    </figure>
  );
}
