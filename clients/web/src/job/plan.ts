import { type Draft, isUnrecorded } from "../device/drafts";
import { type Kept, useKept } from "../device/kept";
import type { Entry } from "../device/outbox";
import { call } from "../wire/call";
import type { Answer, Job, Ladder, Question, WorkPlan } from "../wire/contract";
import { given } from "../words/word";
import { firstPlan } from "./firstplan";
import { areasOf, crewAsked, crewOf, hasNewAreas, takesBack } from "./measured";
import { asked } from "./record";
import { isPlanned } from "./ticks";

type Planned = { name: string; draft: Draft; job?: Job; mine: Entry[] };
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

type Subject = Pick<Question<"PlanService", "planJob">, "job" | "inspection" | "ladders" | "areas" | "crew">;

// A tick changes nothing of a plan but what is still to do.
const isTick = (e: Entry): boolean => e.method === "recordProgress";

// byName says whether the service can plan what is on record: nothing of the job that a plan is made of is on this device alone.
const byName = (job: Planned): boolean =>
  !!job.job?.panels?.some((p) => p.inspection !== "0") && job.mine.every(isTick) && !isUnrecorded(job.draft) && !takesBack(job);

// questionOf is what PlanService has to know of a job. What is on record it plans by the job's name, with corrections, later
// readings and the film that was taken; what is only on this device goes with the question.
function questionOf(job: Planned, named: boolean, ladders: Settled): Subject {
  const here = new Set((job.draft.inspection.panels ?? []).map((p) => p.id));
  const areas = Object.entries(areasOf(job)).flatMap(([panel_id, area_m2]) => (here.has(panel_id) ? [{ panel_id, area_m2 }] : []));
  const settled = ladders.filter((l) => here.has(l.panel_id));
  if (named) {
    const planned = new Set((job.job?.panels ?? []).filter((p) => !isPlanned(job.job) || given(p.ladder)).map((p) => p.panel_id));
    const crew = crewAsked(job);
    return {
      job: job.name,
      ...(settled.length ? { ladders: settled } : {}),
      ...(hasNewAreas(job) ? { areas: areas.filter((a) => planned.has(a.panel_id)) } : {}),
      ...(crew ? { crew } : {}),
    };
  }
  const crew = crewOf(job);
  return {
    inspection: asked(job.draft.inspection),
    ladders: settled,
    ...(areas.length ? { areas } : {}),
    ...(Object.keys(crew).length ? { crew } : {}),
  };
}

const aroundOf = (job: Planned) => [
  job.job?.last_sequence,
  job.mine.filter((e) => !isTick(e)).length,
  job.draft.recorded,
  byName(job),
  JSON.stringify([job.draft.areas, job.draft.crew]),
];

// countsAll says whether what a plan has still to do counts every tick: none waits on this device.
export const countsAll = (job: Planned): boolean => !job.mine.some(isTick);

// usePlan is the plan of the vehicle as it stands. Where nothing on this device changes it, it may have come with the job.
export function usePlan(job: Planned): Kept<WorkPlan | undefined> {
  const key = job.draft.inspection.panels?.length ? `plan ${job.name}` : undefined;
  const named = byName(job);
  const question = questionOf(job, named, named ? [] : settledOf(job.job));
  const asRecorded = named && Object.keys(question).length === 1;
  const first = firstPlan(job.name, job.job);
  const ask = async () => (asRecorded && (await first?.done)) || (await call("PlanService", "planJob", question)).plan;
  return useKept(key, ask, aroundOf(job), asRecorded ? first?.plan : undefined);
}

// Fixed is what there is for the job: hours of one person, or a price in the currency of the catalogue.
export type Fixed = { hours: number } | { price: NonNullable<Question<"PlanService", "fitHours">["price"]> };
export type Fit = { fixed: Fixed; answer: Answer<"PlanService", "fitHours"> };

// useFit is the best use of what is fixed. The last answer stays on the device, with what it was for. Once a job has a plan, the
// service gives its panels no more than that; here another choice is looked for, so the question brings the inspection then.
export function useFit(job: Planned, fixed: Fixed, keepProven: boolean): Kept<Fit> {
  const named = byName(job) && !isPlanned(job.job);
  const ask = async () => ({ fixed, answer: await call("PlanService", "fitHours", { ...questionOf(job, named, fixedOf(job.job, keepProven)), ...fixed }) });
  return useKept(`fit ${job.name}`, ask, [...aroundOf(job), JSON.stringify(fixed), keepProven]);
}
