import type { Verdict } from "../wire/contract";
import { figure } from "../words/number";
import { parts, phrase } from "../words/phrase";
import { big, given, word } from "../words/word";
import { Interval } from "./interval";
import { LadderMark, VerdictMark } from "./marks";
import { MeasureNext, Why } from "./reasons";

// VerdictCard is what a test spot proved and what to do now. Its cautions stand beside it.
export function VerdictCard({ verdict, trials }: { verdict: Verdict; trials: number }) {
  return (
    <article class="card verdict" aria-labelledby="verdict">
      <h2 id="verdict">
        <VerdictMark kind={verdict.kind} /> <small>{phrase("test spot {n}", { n: trials })}</small>
      </h2>
      <p class="headline" lang="en">
        {verdict.headline}
      </p>
      {given(verdict.change) && verdict.change !== "CHANGE_NOTHING" && (
        <p>{parts("Change one thing: {change}", { change: <b>{word(verdict.change, "CHANGE")}</b> })}</p>
      )}
      {verdict.next?.do && !verdict.headline?.includes(verdict.next.do) && <p lang="en">{big(verdict.next.do)}.</p>}
      <Why reason={verdict.reason} open />
      <Interval change={verdict.gloss} />
      <Interval change={verdict.haze} haze />
      {verdict.severity_left !== undefined && (
        <p>
          {verdict.severity_allowed === undefined
            ? phrase("Severity left {left}.", { left: verdict.severity_left })
            : phrase("Severity left {left}; {allowed} may stay.", { left: verdict.severity_left, allowed: verdict.severity_allowed })}
        </p>
      )}
      {verdict.film && <p>{filmSays(verdict.film)}</p>}
      {given(verdict.ladder) && (
        <p>
          {verdict.proven
            ? parts("Proven ladder: {ladder}", { ladder: <LadderMark ladder={verdict.ladder} /> })
            : parts("Ladder so far: {ladder}", { ladder: <LadderMark ladder={verdict.ladder} /> })}
        </p>
      )}
      <MeasureNext wanted={verdict.measure_next} />
    </article>
  );
}

function filmSays({ low_um = 0, high_um = 0, usable_left_um = 0, measured }: NonNullable<Verdict["film"]>): string {
  const figures = { taken: `${figure(low_um)}–${figure(high_um)}`, left: usable_left_um };
  return measured
    ? phrase("Film taken {taken} µm (measured); at least {left} µm usable are left.", figures)
    : phrase("Film taken {taken} µm (expected); at least {left} µm usable are left.", figures);
}
