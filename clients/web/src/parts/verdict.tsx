import type { Verdict } from "../wire/contract";
import { figure } from "../words/number";
import { big, given, word } from "../words/word";
import { Interval } from "./interval";
import { LadderMark, VerdictMark } from "./marks";
import { MeasureNext, Why } from "./reasons";

// VerdictCard is what a test spot proved and what to do now. Its cautions stand beside it.
export function VerdictCard({ verdict, trials }: { verdict: Verdict; trials: number }) {
  const change = word(verdict.change, "CHANGE");
  return (
    <article class="card verdict" aria-labelledby="verdict">
      <h2 id="verdict">
        <VerdictMark kind={verdict.kind} /> <small>test spot {trials}</small>
      </h2>
      <p class="headline">{verdict.headline}</p>
      {change && change !== "nothing" && (
        <p>
          Change one thing: <b>{change}</b>
        </p>
      )}
      {verdict.next?.do && !verdict.headline?.includes(verdict.next.do) && <p>{big(verdict.next.do)}.</p>}
      <Why reason={verdict.reason} open />
      <Interval change={verdict.gloss} name="Gloss" />
      <Interval change={verdict.haze} name="Haze" />
      {verdict.severity_left !== undefined && (
        <p>
          Severity left {figure(verdict.severity_left)}
          {verdict.severity_allowed !== undefined && `; ${figure(verdict.severity_allowed)} may stay`}.
        </p>
      )}
      {verdict.film && (
        <p>
          Film taken {figure(verdict.film.low_um ?? 0)}–{figure(verdict.film.high_um ?? 0)} µm ({verdict.film.measured ? "measured" : "expected"}); at least{" "}
          {figure(verdict.film.usable_left_um ?? 0)} µm usable are left.
        </p>
      )}
      {given(verdict.ladder) && (
        <p>
          {verdict.proven ? "Proven ladder: " : "Ladder so far: "}
          <LadderMark ladder={verdict.ladder} />
        </p>
      )}
      <MeasureNext wanted={verdict.measure_next} />
    </article>
  );
}
