import { useCallback, useEffect, useState } from "preact/hooks";
import { type Failure, toFailure } from "../wire/failure";
import * as database from "./database";

export type Kept<T> = { value?: T; failure?: Failure; busy: boolean; again: () => void };

// useKept shows the last answer at once and then the newest, and keeps it for where there is no network.
export function useKept<T>(key: string | undefined, ask: () => Promise<T>, deps: unknown[] = []): Kept<T> {
  const [state, set] = useState<{ key?: string; value?: T; failure?: Failure; busy: boolean }>({ busy: true });
  const [round, next] = useState(0);
  useEffect(() => {
    if (key === undefined) return;
    let gone = false;
    set((s) => (s.key === key ? { ...s, busy: true } : { key, busy: true }));
    void (async () => {
      const old = await database.read<T>("kept", key).catch(() => undefined);
      if (!gone && old !== undefined) set((s) => (s.key === key && s.value === undefined ? { ...s, value: old } : s));
      try {
        const value = await ask();
        if (gone) return;
        set({ key, value, busy: false });
        await database.put("kept", key, value);
      } catch (thrown) {
        if (!gone) set((s) => ({ ...s, failure: toFailure(thrown), busy: false }));
      }
    })();
    return () => {
      gone = true;
    };
  }, [key, round, ...deps]);
  const again = useCallback(() => next((n) => n + 1), []);
  return { value: state.key === key ? state.value : undefined, failure: state.failure, busy: state.busy, again };
}
