import { useEffect, useRef, useState } from "preact/hooks";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { to } from "../route";
import { call } from "../wire/call";
import type { Answer } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";

type Checked = Answer<"RulesService", "checkRules">;
type Edit = Answer<"RulesService", "updateRuleFile">;
type Files = { texts: Record<string, string>; etag: string; folder: string };

// fetchFiles brings the whole set, since a file can only be checked among the others.
async function fetchFiles(name: string): Promise<Files> {
  const [list, status] = await Promise.all([call("RulesService", "listRuleFiles", { page_size: 1000 }), call("RulesService", "getRulesStatus", {})]);
  const files = await Promise.all((list.files ?? []).map((f) => call("RulesService", "getRuleFile", { name: f.name })));
  return {
    texts: Object.fromEntries(files.map((f) => [f.name, f.text ?? ""])),
    etag: files.find((f) => f.name === name)?.etag ?? "",
    folder: status.folder ?? "",
  };
}

// RuleFileEditor edits one file as text. Problems come from the service while somebody types, with line and column.
export function RuleFileEditor({ name }: { name: string }) {
  const [files, setFiles] = useState<Files>();
  const [text, set] = useState("");
  const [checked, check] = useState<Checked>();
  const [busy, work] = useState(false);
  const [failure, fail] = useState<Failure>();
  const [effects, tell] = useState<Edit["effects"]>();
  const area = useRef<HTMLTextAreaElement>(null);

  const load = () =>
    fetchFiles(name).then(
      (f) => {
        setFiles(f);
        set(f.texts[name] ?? "");
        fail(undefined);
      },
      (e) => fail(toFailure(e)),
    );
  useEffect(() => void load(), [name]);

  useEffect(() => {
    if (!files) return;
    const leave = new AbortController();
    work(true);
    const timer = setTimeout(() => {
      call("RulesService", "checkRules", { files: { ...files.texts, [name]: text } }, leave.signal).then(
        (c) => (check(c), work(false)),
        (e) => {
          if (!leave.signal.aborted) fail(toFailure(e)), work(false);
        },
      );
    }, 400);
    return () => (clearTimeout(timer), leave.abort());
  }, [files, text, name]);

  const jump = (line: number, column: number) => {
    const at =
      text
        .split("\n")
        .slice(0, line - 1)
        .reduce((n, l) => n + l.length + 1, 0) + Math.max(0, column - 1);
    area.current?.focus();
    area.current?.setSelectionRange(at, text.indexOf("\n", at) < 0 ? text.length : text.indexOf("\n", at));
    if (area.current) area.current.scrollTop = (line - 5) * 21;
  };

  const save = async (accept: string) => {
    if (!files) return;
    fail(undefined);
    try {
      const file = { name, text, etag: files.etag };
      if (!accept) {
        const tried = await call("RulesService", "updateRuleFile", { file, validate_only: true });
        tell(tried.effects);
        if (tried.effects?.accept_stronger) return;
      }
      await call("RulesService", "updateRuleFile", { file, ...(accept ? { accept_stronger: accept } : {}) });
      tell(undefined);
      say(`${name} is saved and in force`);
      await load();
    } catch (thrown) {
      fail(toFailure(thrown));
    }
  };

  if (!files) return failure ? <Trouble failure={failure} /> : <p role="status">Fetching the file …</p>;
  const problems = (checked?.problems ?? []).filter((p) => p.file === name);
  const others = (checked?.problems ?? []).length - problems.length;
  const findings = (checked?.findings ?? []).filter((f) => (f.places ?? []).some((p) => p.file === name));
  const changed = text !== files.texts[name];
  return (
    <>
      <div class="heading">
        <h1>{name}</h1>
        <a class="button quiet" href={to("rules")}>
          All files
        </a>
      </div>
      {!files.folder && <p class="hint">These are the rules as shipped: what is changed here is only tried, and not kept.</p>}
      <div class="split editing">
        <textarea
          ref={area}
          class="editor"
          aria-label={`Text of ${name}`}
          aria-describedby="checked"
          spellcheck={false}
          autocapitalize="off"
          value={text}
          onInput={(e) => set(e.currentTarget.value)}
        />
        <div>
          <p id="checked" role="status">
            {busy
              ? "Checking …"
              : problems.length
                ? `${problems.length === 1 ? "1 problem" : `${problems.length} problems`} in this file`
                : others
                  ? `${others === 1 ? "1 problem" : `${others} problems`} in other files`
                  : "This set would load."}
          </p>
          {problems.map((p, i) => (
            <div key={i} class="problem">
              <button type="button" class="quiet" onClick={() => jump(p.line ?? 1, p.column ?? 1)}>
                Line {p.line}, column {p.column}
              </button>
              <p>
                {p.message}
                {p.hint && `; ${p.hint}`}
              </p>
            </div>
          ))}
          {findings.slice(0, 20).map((f, i) => (
            <div key={i} class="problem doubt">
              <Mark shape="care">{`Doubtful: ${f.code}`}</Mark>
              <p>{f.message}</p>
              {f.example && <p class="hint">For example: {f.example}</p>}
            </div>
          ))}
          <Trouble failure={failure} />
          {effects && (
            <section class="band warn" aria-labelledby="effects">
              <h2 id="effects">What it does to answers</h2>
              <ul>
                {(effects.effects ?? []).map((e, i) => (
                  <li key={i}>
                    {e.table}: {e.before} becomes {e.after}
                    {(e.where ?? []).length > 0 && `, where ${(e.where ?? []).join(" and ")}`}
                  </li>
                ))}
              </ul>
              {effects.more ? <p>And {effects.more} more.</p> : null}
              {effects.accept_stronger && (
                <button type="button" onClick={() => void save(effects.accept_stronger ?? "")}>
                  Accept the stronger answers and save
                </button>
              )}
            </section>
          )}
        </div>
      </div>
      {files.folder && (
        <div class="actions foot">
          <button type="button" class="quiet" disabled={!changed} onClick={() => set(files.texts[name] ?? "")}>
            As it was
          </button>
          <button type="button" class="main" disabled={!changed || (checked?.problems ?? []).length > 0} onClick={() => void save("")}>
            Save
          </button>
        </div>
      )}
    </>
  );
}
