import { Store } from "../device/store";
import type { Failure, Violation } from "../wire/failure";

// What the service would not take of an inspection, for the sheets that it was entered on. It is gone with the page.
type Refused = { job: string; violations: (Violation & { panel?: string | undefined })[] };
export const refusedOf = new Store<Refused | undefined>(undefined);

// keepRefused keeps what is wrong with each field, panels by their id; undefined: nothing is.
export function keepRefused(job: string, failure: Failure | undefined, panels: string[]): void {
  const violations = (failure?.violations ?? []).map((v) => {
    const [, at, field] = /^inspection\.panels\[(\d+)\]\.(.*)$/.exec(v.field) ?? [];
    return at === undefined ? { ...v, field: v.field.replace(/^inspection\./, "") } : { ...v, field: field ?? "", panel: panels[Number(at)] };
  });
  refusedOf.set(failure ? { job, violations } : undefined);
}

// saidOf is what the service says of a field of the inspection, or of one of its panels.
export const saidOf = (refused: Refused | undefined, job: string, field: string, panel?: string): string | undefined =>
  refused?.job === job ? refused.violations.find((v) => v.field === field && v.panel === panel)?.description : undefined;

// mended forgets what was said of a field that is entered anew.
export function mended(job: string, field: string, panel?: string): void {
  const now = refusedOf.now;
  if (!saidOf(now, job, field, panel) || !now) return;
  refusedOf.set({ ...now, violations: now.violations.filter((v) => v.field !== field || v.panel !== panel) });
}
