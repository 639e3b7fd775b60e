import type { Draft } from "../device/drafts";
import type { FilmSpot, GlossSpot, Panel, Readings, Trial } from "../wire/contract";
import type { Quantity } from "./quantities";

// SheetName says where readings belong: to what was found, to a test spot, or to the work.
export type SheetName = "found" | "trial" | "work";
type Sheet = { film: FilmSpot[]; gloss: GlossSpot[] };

export const panelOf = (draft: Draft, id: string): Panel | undefined => draft.inspection.panels?.find((p) => p.id === id);

// withPanel changes one panel of the inspection; a panel that was not there begins.
export function withPanel(draft: Draft, id: string, part: string | undefined, next: (panel: Panel) => Panel): Draft {
  const panels = draft.inspection.panels ?? [];
  const at = panels.findIndex((p) => p.id === id);
  const panel = next(panels[at] ?? { id, ...(part ? { part: part as Panel["part"] } : {}) });
  return { ...draft, inspection: { ...draft.inspection, panels: at < 0 ? [...panels, panel] : panels.with(at, panel) } };
}

export const trialOf = (draft: Draft, id: string): Trial => draft.trials[id] ?? {};
export const workOf = (draft: Draft, id: string): Readings => draft.work?.[id] ?? {};

export function sheetOf(draft: Draft, name: SheetName, panel: string): Sheet {
  if (name === "found") {
    const p = panelOf(draft, panel);
    return { film: p?.film ?? [], gloss: p?.gloss ?? [] };
  }
  if (name === "trial") {
    const t = trialOf(draft, panel);
    return { film: t.film_after ?? [], gloss: t.after ?? [] };
  }
  const w = workOf(draft, panel);
  return { film: w.film ?? [], gloss: w.gloss ?? [] };
}

function withSheet(draft: Draft, name: SheetName, panel: string, part: string | undefined, sheet: Sheet): Draft {
  if (name === "found") return withPanel(draft, panel, part, (p) => ({ ...p, film: sheet.film, gloss: sheet.gloss }));
  if (name === "trial") return { ...draft, trials: { ...draft.trials, [panel]: { ...trialOf(draft, panel), film_after: sheet.film, after: sheet.gloss } } };
  return { ...draft, work: { ...draft.work, [panel]: { ...workOf(draft, panel), film: sheet.film, gloss: sheet.gloss } } };
}

export function valuesAt(draft: Draft, name: SheetName, panel: string, q: Quantity, spot: string): number[] {
  const sheet = sheetOf(draft, name, panel);
  if (q.film) return sheet.film.find((s) => s.spot === spot)?.[q.film] ?? [];
  if (q.gloss) return sheet.gloss.find((s) => s.spot === spot)?.[q.gloss] ?? [];
  return [];
}

export function setValues(draft: Draft, name: SheetName, panel: string, part: string | undefined, q: Quantity, spot: string, values: number[]): Draft {
  const sheet = sheetOf(draft, name, panel);
  if (q.film) return withSheet(draft, name, panel, part, { ...sheet, film: put(sheet.film, spot, { [q.film]: values }) });
  return withSheet(draft, name, panel, part, { ...sheet, gloss: put(sheet.gloss, spot, { [q.gloss ?? "at60_gu"]: values }) });
}

function put<S extends FilmSpot | GlossSpot>(spots: S[], spot: string, values: Partial<S>): S[] {
  const at = spots.findIndex((s) => s.spot === spot);
  if (at < 0) return [...spots, { spot, ...values } as S];
  return spots.with(at, { ...spots[at], ...values } as S);
}

const usual = { film: ["centre", "front", "rear", "left", "right"], gloss: ["a", "b", "c"] };

// spotsFor names the spots in the order of measuring: those of the inspection first, since before and after are paired by them.
export function spotsFor(draft: Draft, name: SheetName, panel: string, q: Quantity): string[] {
  const kind = q.film ? "film" : "gloss";
  const found = sheetOf(draft, "found", panel)
    [kind].filter((s) => isRead(s))
    .map((s) => s.spot ?? "");
  const own = sheetOf(draft, name, panel)[kind].map((s) => s.spot ?? "");
  const start = name === "found" || found.length === 0 ? usual[kind] : [];
  return [...new Set([...(name === "found" ? own : found), ...own, ...start])];
}

// isRead says whether a spot holds any reading.
export const isRead = (s: FilmSpot | GlossSpot): boolean => Object.values(s).some((v) => Array.isArray(v) && v.length > 0);

// readOnly leaves out spots without readings: not measured is never zero, and never an empty spot either.
export const onlyRead = <S extends FilmSpot | GlossSpot>(spots: S[] | undefined): S[] => (spots ?? []).filter(isRead);

// counted says how many readings a quantity has on a sheet.
export function counted(draft: Draft, name: SheetName, panel: string, q: Quantity): number {
  return spotsFor(draft, name, panel, q).reduce((n, spot) => n + valuesAt(draft, name, panel, q, spot).length, 0);
}
