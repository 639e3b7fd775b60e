import { useId } from "preact/hooks";
import type { Fit } from "../job/plan";
import type { FitPoint } from "../wire/contract";
import { figure } from "../words/number";
import { phrase } from "../words/phrase";
import { CurveTable } from "./curvetable";
import { fixedWords, pointWords } from "./said";

const width = 340;
const height = 220;
const box = { left: 46, right: 16, top: 14, bottom: 40 };

// A little more than the point itself, so that what is reckoned in tenths of a minute fits for certain.
const hoursOf = (p: FitPoint): number => ((p.work_min ?? 0) + 0.1) / 60;

type Props = { fit: Fit; onHours: (hours: number) => void };

// Curve draws the trade-off between hours and result, and lets another point be chosen: by a slider, or by a tap on the drawing.
export function Curve({ fit, onHours }: Props) {
  const id = useId();
  const points = fit.answer.curve ?? [];
  if (points.length < 2) return null;
  const at = chosen(fit, points);
  const pick = (i: number) => points[i] && onHours(hoursOf(points[i]));
  return (
    <section aria-labelledby={`${id}-h`}>
      <h3 id={`${id}-h`}>{phrase("Result against hours")}</h3>
      <Drawing fit={fit} points={points} at={at} onPick={pick} />
      <div class="slide">
        <label for={`${id}-s`}>
          {phrase("Another point of the curve")} <span>{pointWords(points[at])}</span>
        </label>
        <input
          id={`${id}-s`}
          type="range"
          min={0}
          max={points.length - 1}
          value={at}
          aria-valuetext={pointWords(points[at])}
          onChange={(e) => pick(Number(e.currentTarget.value))}
        />
      </div>
      <CurveTable points={points} at={at} />
    </section>
  );
}

// chosen is the point of the answer: the one with its result.
function chosen(fit: Fit, points: FitPoint[]): number {
  const result = fit.answer.result_pct ?? 0;
  const off = (p: FitPoint) => Math.abs((p.result_pct ?? 0) - result);
  return points.reduce((best, p, i) => (off(p) < off(points[best] ?? p) ? i : best), 0);
}

function Drawing({ fit, points, at, onPick }: { fit: Fit; points: FitPoint[]; at: number; onPick: (i: number) => void }) {
  const id = useId();
  const most = Math.max(...points.map((p) => p.work_min ?? 0)) * 1.04;
  const x = (min: number) => box.left + (min / most) * (width - box.left - box.right);
  const y = (pct: number) => height - box.bottom - (pct / 100) * (height - box.top - box.bottom);
  const stairs = points.map((p, i) => `${i ? `H${x(p.work_min ?? 0)}V` : `M${x(p.work_min ?? 0)} `}${y(p.result_pct ?? 0)}`).join("");
  const here = points[at];
  const limit = "hours" in fit.fixed ? fit.fixed.hours * 60 : undefined;
  const tap = (e: MouseEvent & { currentTarget: SVGSVGElement }) => {
    const area = e.currentTarget.getBoundingClientRect();
    const px = ((e.clientX - area.left) / area.width) * width;
    const off = (p: FitPoint) => Math.abs(x(p.work_min ?? 0) - px);
    onPick(points.reduce((best, p, i) => (off(p) < off(points[best] ?? p) ? i : best), 0));
  };
  const first = points[0];
  const says = phrase("From {first} to {last}, in {n} steps. Chosen: {here}.", {
    first: pointWords(first),
    last: pointWords(points.at(-1)),
    n: points.length,
    here: pointWords(here),
  });
  return (
    <figure class="curve">
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the slider below does the same by keyboard */}
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-t ${id}-d`} onClick={tap}>
        <title id={`${id}-t`}>{phrase("Result against hours")}</title>
        <desc id={`${id}-d`}>{says}</desc>
        {[0, 25, 50, 75, 100].map((pct) => (
          <g key={pct}>
            <line class="grid" x1={box.left} x2={width - box.right} y1={y(pct)} y2={y(pct)} />
            <text x={box.left - 6} y={y(pct) + 4} text-anchor="end">
              {pct} %
            </text>
          </g>
        ))}
        {ticks(most).map((h) => (
          <g key={h}>
            <line class="axis" x1={x(h * 60)} x2={x(h * 60)} y1={y(0)} y2={y(0) + 5} />
            <text x={x(h * 60)} y={y(0) + 19} text-anchor="middle">
              {figure(h)} h
            </text>
          </g>
        ))}
        {limit !== undefined && limit <= most && (
          <>
            <line class="worth" x1={x(limit)} x2={x(limit)} y1={box.top} y2={y(0)} />
            <text x={x(limit) + (limit > most / 2 ? -5 : 5)} y={y(0) - 6} text-anchor={limit > most / 2 ? "end" : "start"}>
              {fixedWords(fit)}
            </text>
          </>
        )}
        <path class="range" d={stairs} fill="none" />
        {points.length <= 40 && points.map((p, i) => <circle key={i} class="dot open" cx={x(p.work_min ?? 0)} cy={y(p.result_pct ?? 0)} r="3.5" />)}
        {here && <path class="dot" d={`M${x(here.work_min ?? 0)} ${y(here.result_pct ?? 0) - 9}l9 9-9 9-9-9z`} />}
        <text x={(box.left + width - box.right) / 2} y={height - 4} text-anchor="middle">
          {phrase("likely hours of work")}
        </text>
      </svg>
      <figcaption class="hint">
        {phrase("Up: how much of the full result. The diamond is the plan shown; no choice beats a point of the line in both.")}
      </figcaption>
    </figure>
  );
}

// ticks are whole hours, or halves where there are few, at most about six of them.
function ticks(minutes: number): number[] {
  const step = [0.5, 1, 2, 4, 5, 10, 20].find((s) => minutes / 60 / s <= 6) ?? 50;
  return Array.from({ length: Math.floor(minutes / 60 / step) + 1 }, (_, i) => i * step);
}
