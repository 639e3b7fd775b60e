import { useEffect, useState } from "preact/hooks";
import { useKept } from "../device/kept";
import { call } from "../wire/call";
import type { Job, VehicleRecord } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { word } from "../words/word";

// Filter chooses among the jobs: a stage, "open" or "all", and a vehicle or "".
export type Filter = { stages: string; vehicle: string };
type Stage = NonNullable<Job["stage"]>;
type Page = { jobs: Job[]; next: string };

const open: Stage[] = ["JOB_STAGE_BOOKED", "JOB_STAGE_INSPECTED", "JOB_STAGE_TRIAL", "JOB_STAGE_PLANNED", "JOB_STAGE_IN_WORK", "JOB_STAGE_FINISHED"];
const every: Stage[] = [...open, "JOB_STAGE_HANDED_OVER", "JOB_STAGE_CANCELLED"];

export const stageChoices = (): [string, string][] => [
  ["all", phrase("all stages")],
  ["open", phrase("not handed over yet")],
  ...every.map((s): [string, string] => [s, word(s, "JOB_STAGE")]),
];

export const filterWords = (f: Filter): string => stageChoices().find(([value]) => value === f.stages)?.[1] ?? "";

const stagesOf = (f: Filter): Stage[] => (f.stages === "all" ? [] : f.stages === "open" ? open : [f.stages as Stage]);

async function page(f: Filter, token: string): Promise<Page> {
  const stages = stagesOf(f);
  const asked = { page_size: 50, ...(stages.length ? { stages } : {}), ...(f.vehicle ? { vehicle: f.vehicle } : {}), ...(token ? { page_token: token } : {}) };
  const answer = await call("JobService", "listJobs", asked);
  return { jobs: answer.jobs ?? [], next: answer.next_page_token ?? "" };
}

export type Jobs = {
  jobs: Job[];
  more: boolean;
  known: boolean; // whether any answer is there, of now or of the last time
  failure: Failure | undefined;
  loading: boolean;
  again: () => void;
  loadMore: () => Promise<void>;
};

// useVehicles are the vehicles on record, by what they are called.
export const useVehicles = (): VehicleRecord[] => useKept("vehicles", allVehicles).value ?? [];

async function allVehicles(): Promise<VehicleRecord[]> {
  const all: VehicleRecord[] = [];
  for (let page_token = ""; ; ) {
    const page = await call("JobService", "listVehicles", { page_size: 1000, ...(page_token ? { page_token } : {}) });
    all.push(...(page.vehicles ?? []));
    page_token = page.next_page_token ?? "";
    if (!page_token) return all;
  }
}

// useJobs are the jobs that a filter leaves, page by page. Where there is no network it chooses among those of the last time.
export function useJobs(filter: Filter): Jobs {
  const all = useKept("jobs", () => page({ stages: "all", vehicle: "" }, ""));
  const chosen = JSON.stringify(filter);
  const [later, add] = useState<{ of: string; pages: Page[] }>({ of: chosen, pages: [] });
  const [asked, ask] = useState<{ of: string; first?: Page; failure?: Failure }>({ of: chosen });
  const [loading, load] = useState(false);
  const plain = filter.stages === "all" && filter.vehicle === "";
  useEffect(() => {
    if (plain) return;
    let gone = false;
    page(filter, "").then(
      (first) => gone || ask({ of: chosen, first }),
      (thrown) => gone || ask({ of: chosen, failure: toFailure(thrown) }),
    );
    return () => {
      gone = true;
    };
  }, [chosen]);
  const mine = asked.of === chosen ? asked : undefined;
  const first = plain ? all.value : (mine?.first ?? { jobs: (all.value?.jobs ?? []).filter((j) => fits(j, filter)), next: "" });
  const pages = [...(first ? [first] : []), ...(later.of === chosen ? later.pages : [])];
  const next = pages.at(-1)?.next ?? "";
  const loadMore = async () => {
    load(true);
    try {
      const p = await page(filter, next);
      add((l) => ({ of: chosen, pages: [...(l.of === chosen ? l.pages : []), p] }));
    } catch {
      // the mark at the top says that the service is not reached; the button stays
    } finally {
      load(false);
    }
  };
  return {
    jobs: pages.flatMap((p) => p.jobs),
    more: next !== "",
    known: all.value !== undefined,
    failure: plain ? all.failure : mine?.failure,
    loading,
    again: all.again,
    loadMore,
  };
}

const fits = (j: Job, f: Filter): boolean => {
  const stages = stagesOf(f);
  return (stages.length === 0 || stages.includes(j.stage ?? "JOB_STAGE_UNSPECIFIED")) && (f.vehicle === "" || j.vehicle === f.vehicle);
};
