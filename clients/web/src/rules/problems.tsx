import { Mark } from "../parts/marks";
import { phrase } from "../words/phrase";
import { Place } from "./places";
import type { Checked } from "./tried";

const most = 20;

// Problems lists what keeps the set from loading, the file at hand first.
export function Problems({ checked, file, onJump }: { checked: Checked | undefined; file?: string; onJump?: (line: number, column: number) => void }) {
  const problems = (checked?.problems ?? []).toSorted((a, b) => Number(b.file === file) - Number(a.file === file));
  return (
    <>
      {problems.map((p, i) => (
        <div key={i} class="problem">
          {p.file === file && onJump ? (
            <button type="button" class="quiet" onClick={() => onJump(p.line ?? 1, p.column ?? 1)}>
              {phrase("Line {line}, column {column}", { line: String(p.line ?? 1), column: String(p.column ?? 1) })}
            </button>
          ) : (
            <p>
              <Place file={p.file} line={p.line} column={p.column} />
            </p>
          )}
          <p lang="en">
            {p.message}
            {p.hint && `; ${p.hint}`}
          </p>
        </div>
      ))}
    </>
  );
}

// Doubts lists what is doubtful in a set that loads, what touches the file at hand first.
export function Doubts({ findings: all, file }: { findings: Findings; file?: string }) {
  const findings = all.toSorted((a, b) => Number(touches(b, file)) - Number(touches(a, file)));
  return (
    <>
      {findings.slice(0, most).map((f, i) => (
        <div key={i} class="problem doubt">
          <Mark shape="care">{phrase("Doubtful: {code}", { code: f.code ?? "" })}</Mark>
          <p lang="en">{f.message}</p>
          {f.example && <p class="hint">{phrase("For example: {example}", { example: f.example })}</p>}
          {f.mend && <p class="hint">{phrase("A way out: {mend}", { mend: f.mend })}</p>}
          {(f.places ?? []).length > 0 && (
            <p>
              {(f.places ?? []).map((p, k) => (
                <span key={k}>
                  {k > 0 && ", "}
                  <Place file={p.file} line={p.line} column={p.column} />
                </span>
              ))}
            </p>
          )}
        </div>
      ))}
      {findings.length > most && <p class="hint">{phrase("And {n} more.", { n: findings.length - most })}</p>}
    </>
  );
}

type Findings = NonNullable<Checked["findings"]>;
const touches = (f: Findings[number], file: string | undefined): boolean => (f.places ?? []).some((p) => p.file === file);
