import { useEffect } from "preact/hooks";
import type { Job, WorkPlan } from "../wire/contract";

// The plan of a job that comes with the job: a visit that begins at the plan has both with one question.
type Coming = { done: Promise<WorkPlan | undefined>; of?: string | undefined; plan?: WorkPlan | undefined };

const coming = new Map<string, Coming>();

// planComes notes that a job brings its plan.
export function planComes(name: string, job: Promise<Job>): void {
  const noted: Coming = {
    done: job.then(
      ({ last_sequence, work_plan }) => Object.assign(noted, { of: last_sequence, plan: work_plan }).plan,
      () => undefined,
    ),
  };
  coming.set(name, noted);
}

// useFirstPlan is the plan that came with a job, or comes, while the job stands as it did then. Whoever leaves the screen and comes
// back asks anew: the rules may have changed.
export function useFirstPlan(name: string, job: Job | undefined): Coming | undefined {
  useEffect(() => () => void coming.delete(name), [name]);
  const noted = coming.get(name);
  return noted?.of === undefined || noted.of === job?.last_sequence ? noted : undefined;
}
