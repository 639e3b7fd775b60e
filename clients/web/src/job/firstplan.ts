import { place } from "../route";
import type { Job, WorkPlan } from "../wire/contract";

// The plan of a job that comes with the job: a visit that begins at the plan has both with one question.
type Coming = { done: Promise<WorkPlan | undefined>; of?: string | undefined; plan?: WorkPlan | undefined };

const coming = new Map<string, Coming>();

// planComes notes that a job brings its plan. Whoever goes to another screen and comes back asks anew: the rules may have changed.
export function planComes(name: string, job: Promise<Job>): void {
  const noted: Coming = {
    done: job.then(
      ({ last_sequence, work_plan }) => Object.assign(noted, { of: last_sequence, plan: work_plan }).plan,
      () => undefined,
    ),
  };
  coming.set(name, noted);
  const stop = place.watch(() => {
    coming.delete(name);
    stop();
  });
}

// firstPlan is the plan that came with a job, or comes, while the job stands as it did then.
export function firstPlan(name: string, job: Job | undefined): Coming | undefined {
  const noted = coming.get(name);
  return noted?.of === undefined || noted.of === job?.last_sequence ? noted : undefined;
}
