import * as database from "../device/database";
import { Store } from "../device/store";
import { call } from "../wire/call";
import type { Answer } from "../wire/contract";

// What somebody has changed in the text of a file and not saved yet, and the etag of the text that it began from.
export type Edit = { text: string; etag: string };
export type Edits = Record<string, Edit>;

// Edits go along from file to file, so that a rule and its worked case are tried and saved together. They stay on the device
// until they are saved or taken back.
export const edits = new Store<Edits>({});

const shelf = "rule edits";
export const recalled = database.read<Edits>("kept", shelf).then(
  (old) => old && Object.keys(edits.now).length === 0 && edits.set(old),
  () => undefined, // a browser without a database keeps them while the page is open
);

function keep(next: Edits): void {
  edits.set(next);
  void database.put("kept", shelf, next).catch(() => undefined);
}

// put notes a text. The text that is on the service is no edit.
export function put(name: string, text: string, now: { text: string; etag: string } | undefined): void {
  const { [name]: before, ...others } = edits.now;
  keep(text === now?.text ? others : { ...others, [name]: { text, etag: before?.etag ?? now?.etag ?? "" } });
}

export function takeBack(...names: string[]): void {
  keep(Object.fromEntries(Object.entries(edits.now).filter(([name]) => !names.includes(name))));
}

// Files are those of the service as they are now.
export type Files = { files: Record<string, { text: string; etag: string }>; folder: string; ruleSet: string };

// fetchFiles brings the whole set, since a file can only be checked among the others.
export async function fetchFiles(): Promise<Files> {
  const [list, status] = await Promise.all([call("RulesService", "listRuleFiles", { page_size: 1000 }), call("RulesService", "getRulesStatus", {})]);
  const files = await Promise.all((list.files ?? []).map((f) => call("RulesService", "getRuleFile", { name: f.name })));
  await recalled;
  return {
    files: Object.fromEntries(files.map((f) => [f.name, { text: f.text ?? "", etag: f.etag ?? "" }])),
    folder: status.folder ?? "",
    ruleSet: status.rule_set ?? "",
  };
}

// textsOf are the texts as edited. An edit of a file that is no longer there counts for nothing.
export function textsOf(files: Files, all: Edits): Record<string, string> {
  return Object.fromEntries(Object.entries(files.files).map(([name, f]) => [name, all[name]?.text ?? f.text]));
}

// overtaken names the edited files that somebody else has changed since.
export const overtaken = (files: Files, all: Edits): string[] =>
  Object.entries(all)
    .filter(([name, e]) => files.files[name]?.etag !== e.etag)
    .map(([name]) => name);

export type Saved = Answer<"RulesService", "batchUpdateRuleFiles">;

// save puts all edits in force as one.
export async function save(all: Edits, accept: string): Promise<Saved> {
  const names = Object.keys(all);
  const saved = await call("RulesService", "batchUpdateRuleFiles", {
    edits: Object.entries(all).map(([name, e]) => ({ update: { name, text: e.text, etag: e.etag } })),
    ...(accept ? { accept_stronger: accept } : {}),
  });
  takeBack(...names);
  return saved;
}
