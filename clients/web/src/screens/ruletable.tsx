import { useEffect, useRef, useState } from "preact/hooks";
import { useKept } from "../device/kept";
import { Trouble } from "../parts/notice";
import { to } from "../route";
import { Asked } from "../rules/asked";
import { hitWords } from "../rules/hit";
import { Place } from "../rules/places";
import { call } from "../wire/call";
import type { Rule, RuleTable } from "../wire/contract";
import { phrase } from "../words/phrase";

// seek finds the rules that have all words of a search in them, wherever they stand.
export function seek(rules: Rule[], search: string): Rule[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  return rules.filter((r) => {
    const text = [r.table, r.rule_id, r.because, r.when, r.then].join(" ").toLowerCase();
    return words.every((w) => text.includes(w));
  });
}

// Table shows the rules of one table, or without a name of all, and finds those with some words in them.
export function Table({ name, rule }: { name: string; rule?: string }) {
  const { value, failure, again } = useKept(`table of rules ${name}`, async () => {
    const [rules, tables] = await Promise.all([
      call("RulesService", "listRules", { table: name, page_size: 1000 }),
      call("RulesService", "listRuleTables", {}),
    ]);
    return { rules: rules.rules ?? [], tables: tables.tables ?? [] };
  });
  const [search, look] = useState("");
  const aim = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    aim.current?.focus({ preventScroll: true });
    aim.current?.scrollIntoView({ block: "start" });
  }, [rule, !value]);
  const table = value?.tables.find((t) => t.name === name);
  const found = seek(value?.rules ?? [], search);
  return (
    <>
      <div class="heading">
        <h1>{name || phrase("All rules")}</h1>
        <a class="button quiet" href={to("rules")}>
          {phrase("All tables")}
        </a>
      </div>
      {table && <p>{hitWords(table.hit)}</p>}
      <Trouble failure={failure} again={again} />
      <div class="entry">
        <label for="search">{phrase("Search in rules")}</label>
        <input id="search" type="search" value={search} onInput={(e) => look(e.currentTarget.value)} autocapitalize="off" />
        <p class="hint" role="status">
          {value && phrase("{found} of {all} {all|rule|rules}", { found: found.length, all: value.rules.length })}
        </p>
      </div>
      <ol class="plain cards two">
        {found.map((r) => (
          <RuleCard
            key={`${r.table} ${r.rule_id}`}
            rule={r}
            table={value?.tables.find((t) => t.name === r.table)}
            named={!name}
            aim={r.rule_id === rule ? aim : undefined}
          />
        ))}
      </ol>
      {!value && !failure && <p role="status">{phrase("Fetching the rules …")}</p>}
    </>
  );
}

type CardProps = { rule: Rule; table: RuleTable | undefined; named: boolean; aim?: { current: HTMLHeadingElement | null } };

function RuleCard({ rule: r, table, named, aim }: CardProps) {
  return (
    <li class={`card rule ${aim ? "aimed" : ""}`}>
      <h2 ref={aim} tabIndex={aim ? -1 : undefined}>
        {r.rule_id}
      </h2>
      {named && <p class="soft">{phrase("table {table}", { table: r.table ?? "" })}</p>}
      <p lang="en">{r.because}</p>
      <dl class="rule-text">
        <div>
          <dt>{phrase("When")}</dt>
          <dd>
            <code>{!r.when || r.when === "true" ? phrase("always") : r.when}</code>
          </dd>
        </div>
        <div>
          <dt>{phrase("Then")}</dt>
          <dd>
            <code>{r.then}</code>
          </dd>
        </div>
      </dl>
      <Asked when={r.when ?? ""} lets={table?.lets ?? []} />
      <p>
        <Place file={r.file} line={r.line} />
      </p>
    </li>
  );
}
