import * as database from "./device/database";
import { Store } from "./device/store";
import { call } from "./wire/call";
import type { FactInfo } from "./wire/contract";
import { named, phrase } from "./words/phrase";
import { big } from "./words/word";

// The facts that rules may ask about, with their words and bounds. Every form takes its choices and ranges from here.
export type Facts = { byName: Map<string, FactInfo>; words: Map<string, string[]>; ruleSet: string };
export const facts = new Store<Facts | undefined>(undefined);

type Told = { facts?: FactInfo[]; tables?: { name?: string; fields?: FactInfo[] }[]; rule_set?: string };

let last: Told | undefined;

function take(told: Told): void {
  last = told;
  const words = new Map<string, string[]>();
  for (const fact of told.facts ?? []) words.set(fact.name ?? "", fact.words ?? []);
  for (const table of told.tables ?? []) for (const field of table.fields ?? []) words.set(`${table.name}:${field.name}`, field.words ?? []);
  facts.set({ byName: new Map((told.facts ?? []).map((f) => [f.name ?? "", f])), words, ruleSet: told.rule_set ?? "" });
}

// loadFacts takes the ones of the last time until the service has answered, so that forms work without a network.
export async function loadFacts(): Promise<void> {
  const asked = call("AdvisorService", "listFacts", {});
  void database.read<Told>("kept", "facts").then(
    (old) => old && !facts.now && take(old),
    () => undefined,
  );
  const told = await asked;
  if (isNews(told)) take(told);
  await database.put("kept", "facts", told);
}

// isNews spares the page a second drawing: the facts are most often those of the last time.
const isNews = (told: Told): boolean => JSON.stringify(told) !== JSON.stringify(last);

// factOf gives a fact's bounds, and its name and unit in the language of the page; before the schema has come there are none.
export function factOf(name: string): FactInfo {
  const fact = facts.now?.byName.get(name) ?? { name };
  const { label, unit } = fact;
  return { ...fact, ...(label ? { label: named("FACT", label) } : {}), ...(unit ? { unit: named("UNIT", unit) } : {}) };
}

// choicesOf gives the words of a fact, or of a table's answer as "verdict:change", as the contract's values with their prefix.
export const choicesOf = (name: string, prefix: string): string[] =>
  (facts.now?.words.get(name) ?? []).map((word) => `${prefix}_${word.toUpperCase().replaceAll("-", "_")}`);

// outside says what is wrong with a number for a fact, or "".
export function outside(name: string, value: number): string {
  const { min, max, unit, label } = factOf(name);
  if (min === undefined || max === undefined || (value >= min && value <= max)) return "";
  const what = { what: label ? big(label) : phrase("This"), min, max };
  return unit ? phrase("{what} lies between {min} and {max} {unit}.", { ...what, unit }) : phrase("{what} lies between {min} and {max}.", what);
}
