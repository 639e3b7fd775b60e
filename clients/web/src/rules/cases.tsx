import { Mark } from "../parts/marks";
import type { RuleCase, RuleCaseCoverage } from "../wire/contract";
import { phrase } from "../words/phrase";
import { Place, RuleName } from "./places";
import type { Tested } from "./tried";

const few = 4; // are told at once
const most = 60; // at all

// Cases tells how the worked cases come out: what failed, with what was expected and what came, and what no case speaks of.
export function Cases({ tested }: { tested: Tested | undefined }) {
  if (!tested) return <p>{phrase("Worked cases are run once the set loads.")}</p>;
  const failed = (tested.cases ?? []).filter((c) => !c.passed);
  return (
    <>
      <p class="marks-row">
        <Mark shape="done">{phrase("{n} as expected", { n: tested.passed ?? 0 })}</Mark>
        {failed.length > 0 && <Mark shape="stop">{phrase("{n} otherwise", { n: tested.failed ?? 0 })}</Mark>}
      </p>
      <FailedCases of={failed.slice(0, few)} />
      {failed.length > few && (
        <details class="why">
          <summary>{phrase("{n} more that came out otherwise", { n: failed.length - few })}</summary>
          <FailedCases of={failed.slice(few, most)} />
        </details>
      )}
      {failed.length > most && <p>{phrase("And {n} more.", { n: failed.length - most })}</p>}
      <Uncovered coverage={tested.coverage ?? []} />
    </>
  );
}

function FailedCases({ of }: { of: RuleCase[] }) {
  return (
    <ul class="plain">
      {of.map((c, i) => (
        <li key={i} class="problem">
          <Failed of={c} />
        </li>
      ))}
    </ul>
  );
}

function Failed({ of: c }: { of: RuleCase }) {
  return (
    <>
      <p>
        <b>{c.name}</b>
      </p>
      <p>
        <Place file={c.file} line={c.line} />
      </p>
      <table class="outcome">
        <caption class="hidden">{phrase("What case {name} expected of table {table}, and what came", { name: c.name ?? "", table: c.table ?? "" })}</caption>
        <thead>
          <tr>
            <th scope="col">{phrase("what")}</th>
            <th scope="col">{phrase("expected")}</th>
            <th scope="col">{phrase("came")}</th>
          </tr>
        </thead>
        <tbody>
          {(c.differences ?? []).map((d, i) => (
            <tr key={i}>
              <th scope="row">{d.what}</th>
              <td>{d.expected || phrase("nothing")}</td>
              <td>{d.got || phrase("nothing")}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <details class="why">
        <summary>{phrase("Why it came out so")}</summary>
        <p>{c.got}</p>
        <p>{c.why}</p>
        {(c.notes ?? []).map((n, i) => (
          <p key={i}>{n}</p>
        ))}
      </details>
    </>
  );
}

// Uncovered lists the rules that no case speaks of: an edit of one of them goes unnoticed.
function Uncovered({ coverage }: { coverage: RuleCaseCoverage[] }) {
  const lists = [
    { says: phrase("Rules that no case picks"), of: coverage.map((c) => [c.table, c.no_case_wins ?? []] as const) },
    { says: phrase("Rules that no case just misses"), of: coverage.map((c) => [c.table, c.no_case_misses ?? []] as const) },
  ];
  return (
    <>
      {lists.map(({ says, of }) => {
        const n = of.reduce((sum, [, rules]) => sum + rules.length, 0);
        if (n === 0) return null;
        return (
          <details key={says} class="why">
            <summary>
              {says}: {n}
            </summary>
            <ul>
              {of.flatMap(([table, rules]) =>
                rules.map((r) => (
                  <li key={`${table} ${r.rule_id}`}>
                    <p>
                      {table}: <RuleName table={table} id={r.rule_id} />, <Place file={r.file} line={r.line} />
                    </p>
                  </li>
                )),
              )}
            </ul>
          </details>
        );
      })}
    </>
  );
}
