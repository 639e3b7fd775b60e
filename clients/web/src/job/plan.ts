import { change, type Draft } from "../device/drafts";
import { type Kept, useKept } from "../device/kept";
import { call } from "../wire/call";
import type { Answer, Job, Ladder, Question, WorkPlan } from "../wire/contract";
import { given } from "../words/word";
import { asked } from "./record";

type Planned = { name: string; draft: Draft; job?: Job };
type Settled = NonNullable<Question<"PlanService", "planJob">["ladders"]>;

// settledOf are the ladders that hold: those of the plan or, before there is one, those that test spots have proven.
function settledOf(job: Job | undefined): Settled {
  return (job?.panels ?? []).flatMap((p) => {
    const proven = !!p.verdict?.proven;
    if (given(p.ladder)) return [{ panel_id: p.panel_id, ladder: p.ladder as Ladder, proven: proven && p.verdict?.ladder === p.ladder }];
    return proven ? [{ panel_id: p.panel_id, ladder: p.verdict?.ladder as Ladder, proven: true }] : [];
  });
}

// fixedOf are the ladders that a choice cannot change: those being worked and, if so wanted, those that test spots have proven.
function fixedOf(job: Job | undefined, keepProven: boolean): Settled {
  return (job?.panels ?? []).flatMap((p) => {
    const begun = (p.steps ?? []).some((s) => s.state === "STEP_STATE_DONE" || s.state === "STEP_STATE_UNDER_WAY");
    const proven = !!p.verdict?.proven;
    if (begun && given(p.ladder)) return [{ panel_id: p.panel_id, ladder: p.ladder as Ladder, proven }];
    return keepProven && proven ? [{ panel_id: p.panel_id, ladder: p.verdict?.ladder as Ladder, proven: true }] : [];
  });
}

// questionOf is what PlanService has to know of a job. It plans what stands on this device, recorded or not.
function questionOf({ draft }: Planned, ladders: Settled) {
  const here = new Set((draft.inspection.panels ?? []).map((p) => p.id));
  const areas = Object.entries(draft.areas ?? {}).flatMap(([panel_id, area_m2]) => (here.has(panel_id) ? [{ panel_id, area_m2 }] : []));
  return {
    inspection: asked(draft.inspection),
    ladders: ladders.filter((l) => here.has(l.panel_id)),
    ...(areas.length ? { areas } : {}),
    ...(draft.crew ? { crew: draft.crew } : {}),
  };
}

const aroundOf = (job: Planned) => [job.job?.last_sequence, job.draft.recorded, JSON.stringify([job.draft.areas, job.draft.crew])];

// usePlan is the plan of the vehicle as it stands.
export function usePlan(job: Planned): Kept<WorkPlan | undefined> {
  const key = job.draft.inspection.panels?.length ? `plan ${job.name}` : undefined;
  return useKept(key, async () => (await call("PlanService", "planJob", questionOf(job, settledOf(job.job)))).plan, aroundOf(job));
}

// Fixed is what there is for the job: hours of one person, or a price in the currency of the catalogue.
export type Fixed = { hours: number } | { price: NonNullable<Question<"PlanService", "fitHours">["price"]> };
export type Fit = { fixed: Fixed; answer: Answer<"PlanService", "fitHours"> };

// useFit is the best use of what is fixed. The last answer stays on the device, with what it was for.
export function useFit(job: Planned, fixed: Fixed, keepProven: boolean): Kept<Fit> {
  const ask = async () => ({ fixed, answer: await call("PlanService", "fitHours", { ...questionOf(job, fixedOf(job.job, keepProven)), ...fixed }) });
  return useKept(`fit ${job.name}`, ask, [...aroundOf(job), JSON.stringify(fixed), keepProven]);
}

// setArea keeps the area of a panel as measured; undefined: it was not.
export function setArea(job: string, panel: string, did: string, area: number | undefined): void {
  change(job, did, (d) => {
    const { [panel]: _, ...others } = d.areas ?? {};
    return { ...d, areas: area === undefined ? others : { ...others, [panel]: area } };
  });
}

export const setCrew = (job: string, did: string, crew: Draft["crew"]): void => change(job, did, (d) => ({ ...d, crew: { ...d.crew, ...crew } }));
