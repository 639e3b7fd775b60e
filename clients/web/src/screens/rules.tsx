import "../look/rules.css";
import { useKept } from "../device/kept";
import { useStore } from "../device/store";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { to, usePlace } from "../route";
import { addressOf, ofAddress } from "../rules/address";
import { edits } from "../rules/edits";
import { hitWords } from "../rules/hit";
import { Place } from "../rules/places";
import { call } from "../wire/call";
import type { Answer } from "../wire/contract";
import { moment } from "../words/day";
import { phrase } from "../words/phrase";
import { RuleFileEditor } from "./rulefile";
import { RuleHints } from "./rulehints";
import { RuleSets, RuleSetThen } from "./rulesets";
import { Table } from "./ruletable";
import { RuleTrial } from "./ruletry";

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
  switch (part) {
    case "table":
      return <Table key={rest[0]} name={rest[0] ?? ""} rule={rest[1]} />;
    case "all":
      return <Table key="" name="" />;
    case "file": {
      const { name, line } = ofAddress(rest);
      return <RuleFileEditor key={name} name={name} line={line} />;
    }
    case "try":
      return <RuleTrial />;
    case "hints":
      return <RuleHints />;
    case "sets":
      return <RuleSets />;
    case "set":
      return <RuleSetThen key={rest[0]} hash={rest[0] ?? ""} />;
    default:
      return <Overview />;
  }
}

function Overview() {
  const { value, failure, again } = useKept("rules", tell);
  const edited = useStore(edits);
  if (!value)
    return (
      <>
        <h1>{phrase("Rules")}</h1>
        {failure ? <Trouble failure={failure} again={again} /> : <p role="status">{phrase("Fetching the rules …")}</p>}
      </>
    );
  const { status, tables, files } = value;
  return (
    <>
      <h1>{phrase("Rules")}</h1>
      <p>
        {status.folder
          ? phrase("From the folder {folder}, in force since {time}.", {
              folder: status.folder,
              time: moment(status.in_force_since),
            })
          : phrase("The rules as shipped. They can be tried out here, and not changed: copy them with “glossladder rules copy” and serve the copy.")}
      </p>
      <p class="place">{phrase("set {hash}", { hash: status.rule_set?.slice(0, 12) ?? "" })}</p>
      <Wrong problems={status.problems ?? []} />
      <nav aria-label={phrase("About the rules")}>
        <ul class="plain rows">
          <Row
            at={to("rules", "all")}
            name={phrase("Search in all rules")}
            says={phrase("{n} rules", { n: tables.reduce((n, t) => n + (t.rule_count ?? 0), 0) })}
          />
          <Row
            at={to("rules", "try")}
            name={phrase("Try the rules out")}
            says={
              Object.keys(edited).length
                ? phrase("{n} {n|file|files} edited and not saved", { n: Object.keys(edited).length })
                : phrase("problems, answers, worked cases, the record")
            }
          />
          <Row at={to("rules", "hints")} name={phrase("Hints from the record")} says={phrase("bounds that outcomes speak against")} />
          <Row at={to("rules", "sets")} name={phrase("Rules over time")} says={phrase("which set was in force when")} />
        </ul>
      </nav>
      <div class="split even rule-lists">
        <section>
          <h2>{phrase("Tables")}</h2>
          <ul class="plain rows">
            {tables.map((t) => (
              <Row
                key={t.name}
                at={to("rules", "table", t.name ?? "")}
                name={t.name ?? ""}
                says={`${phrase("{n} {n|rule|rules}", { n: t.rule_count ?? 0 })}. ${hitWords(t.hit)}`}
              />
            ))}
          </ul>
        </section>
        <section>
          <h2>{phrase("Files")}</h2>
          <FileRows files={files.filter((f) => !f.name?.startsWith("cases/"))} />
          <h2>{phrase("Files of worked cases")}</h2>
          <FileRows files={files.filter((f) => f.name?.startsWith("cases/"))} />
        </section>
      </div>
    </>
  );
}

function FileRows({ files }: { files: Told["files"] }) {
  const edited = useStore(edits);
  return (
    <ul class="plain rows">
      {files.map((f) => (
        <Row
          key={f.name}
          at={addressOf(f.name)}
          name={f.name ?? ""}
          says={`${phrase("{n} kB", { n: Math.ceil(Number(f.size_bytes ?? 0) / 1024) })}${edited[f.name ?? ""] ? `, ${phrase("edited, not saved")}` : ""}`}
        />
      ))}
    </ul>
  );
}

function Row({ at, name, says }: { at: string; name: string; says: string }) {
  return (
    <li>
      <a href={at}>
        <b>{name}</b>
        <span class="soft">{says}</span>
      </a>
    </li>
  );
}

// Wrong tells why the files on disk are not in force.
function Wrong({ problems }: { problems: NonNullable<Told["status"]["problems"]> }) {
  if (problems.length === 0) return null;
  return (
    <div class="band warn">
      <Mark shape="danger">{phrase("The files do not load; an earlier set decides")}</Mark>
      <ul>
        {problems.map((p, i) => (
          <li key={i}>
            <p>
              <Place file={p.file} line={p.line} column={p.column} /> {p.message}
              {p.hint && `; ${p.hint}`}
            </p>
          </li>
        ))}
      </ul>
    </div>
  );
}
