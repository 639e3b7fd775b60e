import { change, type Draft, openDraft } from "../device/drafts";
import type { Inspection, Job, Question } from "../wire/contract";

export type Entered = { draft: Draft; job?: Job };
type Plan = NonNullable<Question<"JobService", "recordPlan">["plan"]>;

// recordedArea is the area of a panel that is on record.
export const recordedArea = (job: Job | undefined, panel: string): number | undefined => job?.panels?.find((p) => p.panel_id === panel)?.area_m2;

// areasOf are the areas that hold: those on record, and what was entered since.
export function areasOf({ draft, job }: Entered): Record<string, number> {
  const recorded = (job?.panels ?? []).map((p) => [p.panel_id ?? "", p.area_m2] as const);
  const all = [...recorded, ...Object.entries(draft.areas ?? {})];
  return Object.fromEntries([...new Map(all)].filter((a): a is [string, number] => typeof a[1] === "number"));
}

// crewOf is who works, as it holds.
export function crewOf({ draft, job }: Entered): { people?: number; day_hours?: number } {
  const people = draft.crew?.people === undefined ? job?.crew?.people : draft.crew.people;
  const day_hours = draft.crew?.day_hours === undefined ? job?.crew?.day_hours : draft.crew.day_hours;
  return { ...(people ? { people } : {}), ...(day_hours ? { day_hours } : {}) };
}

const same = (a: number | null | undefined, b: number | undefined): boolean => (a ?? undefined) === b;

// news are the areas and the crew that were entered and are otherwise than on record.
function news({ draft, job }: Entered) {
  return {
    areas: Object.entries(draft.areas ?? {}).filter(([panel, m2]) => !same(m2, recordedArea(job, panel))),
    crew: (["people", "day_hours"] as const).filter((k) => draft.crew?.[k] !== undefined && !same(draft.crew[k], job?.crew?.[k])),
  };
}

export const hasNewAreas = (entered: Entered): boolean => news(entered).areas.length > 0;
export const hasNewCrew = (entered: Entered): boolean => news(entered).crew.length > 0;

// takesBack says whether an area that is on record no longer holds, which a question by the job's name has no word for.
export const takesBack = (entered: Entered): boolean => news(entered).areas.some(([, m2]) => m2 === null);

// withPlan is what goes on record with a plan: nothing where all is on record as it is. An area goes with an inspected panel only.
export function withPlan(entered: Entered): Pick<Plan, "measured" | "crew"> {
  const found = new Set(((entered.draft.recorded ? (JSON.parse(entered.draft.recorded) as Inspection) : {}).panels ?? []).map((p) => p.id));
  for (const p of entered.job?.panels ?? []) found.add(p.panel_id);
  const areas = Object.entries(areasOf(entered)).flatMap(([panel_id, area_m2]) => (found.has(panel_id) ? [{ panel_id, area_m2 }] : []));
  return { ...(hasNewAreas(entered) ? { measured: { areas } } : {}), ...(hasNewCrew(entered) ? { crew: crewOf(entered) } : {}) };
}

// crewAsked is the crew as a question by the job's name says it: what was taken back is the usual, not what is on record.
export function crewAsked({ draft, job }: Entered): { people?: number; day_hours?: number } | undefined {
  if (!hasNewCrew({ draft, job })) return undefined;
  return { people: 1, day_hours: 8, ...crewOf({ draft, job }) };
}

// settleMeasured lets go of what was entered once it is on record.
export async function settleMeasured(name: string, job: Job): Promise<void> {
  if (!(await openDraft(name))) return;
  change(name, "", (draft) => {
    const left = news({ draft, job });
    const areas = Object.fromEntries(left.areas);
    const crew = Object.fromEntries(left.crew.map((k) => [k, draft.crew?.[k]]));
    return { ...draft, areas: left.areas.length ? areas : undefined, crew: left.crew.length ? crew : undefined };
  });
}

// setArea keeps the area of a panel as measured; undefined: it was not.
export const setArea = (job: string, panel: string, did: string, area: number | undefined): void =>
  change(job, did, (d) => ({ ...d, areas: { ...d.areas, [panel]: area ?? null } }));

// setCrew keeps one figure of who works; undefined: not said.
export const setCrew = (job: string, did: string, figure: "people" | "day_hours", value: number | undefined): void =>
  change(job, did, (d) => ({ ...d, crew: { ...d.crew, [figure]: value ?? null } }));
