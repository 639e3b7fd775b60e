import { useKept } from "../device/kept";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { to, usePlace } from "../route";
import { call } from "../wire/call";
import type { Answer } from "../wire/contract";
import { RuleFileEditor } from "./rulefile";

type Told = {
  status: Answer<"RulesService", "getRulesStatus">;
  tables: NonNullable<Answer<"RulesService", "listRuleTables">["tables"]>;
  files: NonNullable<Answer<"RulesService", "listRuleFiles">["files"]>;
};

async function tell(): Promise<Told> {
  const [status, tables, files] = await Promise.all([
    call("RulesService", "getRulesStatus", {}),
    call("RulesService", "listRuleTables", {}),
    call("RulesService", "listRuleFiles", { page_size: 1000 }),
  ]);
  return { status, tables: tables.tables ?? [], files: files.files ?? [] };
}

// Rules shows the rules in force, and lets a shop edit its own.
export function Rules() {
  const [, part, ...rest] = usePlace();
  const name = rest.join("/");
  if (part === "table") return <Table key={name} name={name} />;
  if (part === "file") return <RuleFileEditor key={name} name={name} />;
  return <Overview />;
}

function Overview() {
  const { value, failure, again } = useKept("rules", tell);
  if (!value) return failure ? <Trouble failure={failure} again={again} /> : <p role="status">Fetching the rules …</p>;
  const { status, tables, files } = value;
  const problems = status.problems ?? [];
  return (
    <>
      <h1>Rules</h1>
      <p>
        {status.folder ? (
          <>
            From the folder <code>{status.folder}</code>, in force since {new Date(status.in_force_since ?? 0).toLocaleString()}.
          </>
        ) : (
          <>The rules as shipped. They can be tried out here, and not changed: copy them with “glossladder rules copy” and serve the copy.</>
        )}
      </p>
      <p class="place">set {status.rule_set?.slice(0, 12)}</p>
      {problems.length > 0 && (
        <div class="band warn">
          <Mark shape="danger">The files do not load; an earlier set decides</Mark>
          <ul>
            {problems.map((p, i) => (
              <li key={i}>
                <a href={to("rules", "file", ...(p.file ?? "").split("/"))}>
                  {p.file}:{p.line}:{p.column}
                </a>{" "}
                {p.message}
                {p.hint && `; ${p.hint}`}
              </li>
            ))}
          </ul>
        </div>
      )}
      <h2>Tables</h2>
      <ul class="plain rows">
        {tables.map((t) => (
          <li key={t.name}>
            <a href={to("rules", "table", t.name ?? "")}>
              <b>{t.name}</b>
              <span class="soft">
                {t.rule_count} rules, {t.hit}
              </span>
            </a>
          </li>
        ))}
      </ul>
      <h2>Files</h2>
      <ul class="plain rows">
        {files.map((f) => (
          <li key={f.name}>
            <a href={to("rules", "file", ...(f.name ?? "").split("/"))}>
              <b>{f.name}</b>
              <span class="soft">{Math.ceil(Number(f.size_bytes ?? 0) / 1024)} kB</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

function Table({ name }: { name: string }) {
  const { value, failure, again } = useKept(
    `table ${name}`,
    async () => (await call("RulesService", "listRules", { table: name, page_size: 1000 })).rules ?? [],
  );
  return (
    <>
      <div class="heading">
        <h1>{name}</h1>
        <a class="button quiet" href={to("rules")}>
          All tables
        </a>
      </div>
      <Trouble failure={failure} again={again} />
      <ol class="plain cards">
        {(value ?? []).map((r) => (
          <li key={r.rule_id} class="card">
            <h2>{r.rule_id}</h2>
            <p>{r.because}</p>
            <pre>when {r.when || "always"}</pre>
            <pre>then {r.then}</pre>
            <p class="place">
              <a href={to("rules", "file", ...(r.file ?? "").split("/"))}>
                {r.file}:{r.line}
              </a>
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}
