import { useEffect, useState } from "preact/hooks";
import { call } from "../wire/call";
import type { Answer } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";

export type Checked = Answer<"RulesService", "checkRules">;
export type Tested = Answer<"RulesService", "testRules">;
export type Tried = { checked?: Checked; tested?: Tested; busy: boolean; failure?: Failure };

// Somebody who stops for so long has ended a thought.
const pause = 400;

// useTried looks at texts once somebody stops typing: what is wrong, what it does to answers, and how the cases come out.
// What was told before stays until there is something newer.
export function useTried(texts: Record<string, string> | undefined): Tried {
  const [now, set] = useState<Tried>({ busy: true });
  useEffect(() => {
    if (!texts) return;
    const leave = new AbortController();
    set((s) => ({ ...s, busy: true }));
    const timer = setTimeout(() => void look(texts, leave.signal, set), pause);
    return () => (clearTimeout(timer), leave.abort());
  }, [texts]);
  return now;
}

async function look(files: Record<string, string>, signal: AbortSignal, set: (to: (s: Tried) => Tried) => void): Promise<void> {
  try {
    const checked = await call("RulesService", "checkRules", { files, with_effects: true }, signal);
    const loads = !checked.problems?.length;
    // Cases of a set that does not load say nothing.
    set((s) => ({ checked, busy: loads, ...(loads && s.tested ? { tested: s.tested } : {}) }));
    if (!loads) return;
    const tested = await call("RulesService", "testRules", { files, failures_only: true }, signal);
    if (!signal.aborted) set(() => ({ checked, tested, busy: false }));
  } catch (thrown) {
    if (!signal.aborted) set((s) => ({ ...s, busy: false, failure: toFailure(thrown) }));
  }
}
