import type { ComponentChildren } from "preact";
import type { MeasuredChange } from "../wire/contract";
import { figure, signed } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { big } from "../words/word";

// Interval draws a measured change as a dot with its interval beside zero and beside the smallest change that is worth having. It
// is never a bar from zero: what matters is where the ends lie.
export function Interval({ change, haze = false }: { change: MeasuredChange | undefined; haze?: boolean }) {
  if (!change || change.low === undefined || change.high === undefined || change.mean === undefined) return null;
  const { low, high, mean, unit = "", worth = 0 } = change;
  const mark = haze ? -worth : worth;
  const name = haze ? phrase("Haze") : phrase("Gloss");
  const title = <b>{change.angle ? phrase("{name} at {angle}°", { name, angle: figure(change.angle) }) : name}</b>;
  if (!hasInterval(change)) return <NoInterval change={change} title={title} />;
  const ends = [low, high, 0, mark];
  const pad = (Math.max(...ends) - Math.min(...ends)) * 0.12 || 1;
  const from = Math.min(...ends) - pad;
  const x = (v: number) => 10 + ((v - from) / (Math.max(...ends) + pad - from)) * 300;
  const figures = { before: change.before ?? 0, after: change.after ?? 0, change: signed(mean), unit, low: signed(low), high: signed(high) };
  const says = phrase("{name}: {before} before, {after} after; change {change} {unit}, between {low} and {high} with {confidence} % confidence", {
    ...figures,
    name,
    confidence: change.confidence_pct ?? 0,
  });
  return (
    <figure class="interval">
      <figcaption>
        {parts("{title} {before} → {after} {unit}, {change} ({low} to {high})", {
          ...figures,
          title,
        })}
      </figcaption>
      <svg viewBox="0 0 320 56" role="img" aria-label={says}>
        <line x1={x(0)} x2={x(0)} y1="6" y2="38" class="axis" />
        <text x={x(0)} y="52" text-anchor="middle">
          0 {unit}
        </text>
        {worth > 0 && <line x1={x(mark)} x2={x(mark)} y1="6" y2="38" class="worth" />}
        {worth > 0 && Math.abs(x(mark) - x(0)) > 70 && (
          <text x={x(mark)} y="52" text-anchor="middle">
            {phrase("worth it")}
          </text>
        )}
        <line x1={x(low)} x2={x(high)} y1="22" y2="22" class="range" />
        <line x1={x(low)} x2={x(low)} y1="14" y2="30" class="range" />
        <line x1={x(high)} x2={x(high)} y1="14" y2="30" class="range" />
        <circle cx={x(mean)} cy="22" r="6" class="dot" />
      </svg>
      {change.note && (
        <p class="hint" lang="en">
          {big(change.note)}.
        </p>
      )}
    </figure>
  );
}

// hasInterval says whether the readings give the change an interval at all: one reading a spot does not.
export const hasInterval = ({ low = 0, high = 0, mean = 0 }: MeasuredChange): boolean => low <= mean && mean <= high && low < high;

// NoInterval says a change that too few readings stand behind.
export function NoInterval({ change: { before = 0, after = 0, mean = 0, unit = "", note }, title }: { change: MeasuredChange; title: ComponentChildren }) {
  return (
    <>
      <p>{parts("{title} {before} → {after} {unit}, {change}; too few readings for an interval.", { title, before, after, unit, change: signed(mean) })}</p>
      {note && (
        <p class="hint" lang="en">
          {big(note)}.
        </p>
      )}
    </>
  );
}
