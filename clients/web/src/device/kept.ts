import { useCallback, useEffect, useState } from "preact/hooks";
import { type Failure, toFailure } from "../wire/failure";
import * as database from "./database";

export type Kept<T> = { value?: T; failure?: Failure; busy: boolean; again: () => void };

// useKept shows the last answer at once and then the newest, and keeps it for where there is no network. What has come already, with
// something else, is not asked for.
export function useKept<T>(key: string | undefined, ask: () => Promise<T>, deps: unknown[] = [], come?: NonNullable<T>): Kept<T> {
  const [state, set] = useState<{ key?: string | undefined; value?: T; failure?: Failure; busy: boolean }>({ key, busy: true });
  const [round, next] = useState(0);
  useEffect(() => {
    if (key === undefined) return;
    if (come !== undefined && round === 0) {
      database.put("kept", key, come).catch(() => undefined); // it is on the screen all the same
      return;
    }
    let gone = false;
    set((s) => (s.key !== key ? { key, busy: true } : s.busy ? s : { ...s, busy: true }));
    const old = database.read<T>("kept", key).then(
      (value) => {
        if (!gone && value !== undefined) set((s) => (s.key === key && s.value === undefined ? { ...s, value } : s));
      },
      () => undefined,
    );
    void (async () => {
      try {
        const value = await ask();
        if (gone) return;
        set({ key, value, busy: false });
        await database.put("kept", key, value);
      } catch (thrown) {
        await old; // where there is an answer of the last time, no trouble is shown before it
        if (!gone) set((s) => ({ ...s, failure: toFailure(thrown), busy: false }));
      }
    })();
    return () => {
      gone = true;
    };
  }, [key, round, come === undefined, ...deps]);
  const again = useCallback(() => next((n) => n + 1), []);
  if (come !== undefined && round === 0) return { value: come, busy: false, again };
  return { value: state.key === key ? state.value : undefined, failure: state.failure, busy: state.busy, again };
}
