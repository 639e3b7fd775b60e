import { useEffect } from "preact/hooks";
import { reach } from "../device/reach";
import { useStore } from "../device/store";
import type { Job } from "../wire/contract";
import { follow } from "../wire/follow";
import { jobStore } from "./job";

const pause = 5_000;

// useLive follows a job while it is on the screen, so that what another device records is seen here. A page in the background
// follows nothing; what it missed it hears when it is back.
export function useLive(job: Job | undefined, refresh: () => void): void {
  const name = job?.name;
  const reached = useStore(reach) === "reached";
  useEffect(() => {
    if (!name || !reached) return;
    let stop = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const known = () => Number(jobStore(name).now?.last_sequence ?? 0);
    const listen = async () => {
      stop.abort();
      clearTimeout(timer);
      if (document.visibilityState !== "visible") return;
      stop = new AbortController();
      const mine = stop.signal;
      try {
        await follow({ name, after_sequence: String(known()) }, (said) => Number(said.event?.sequence ?? 0) > known() && refresh(), mine);
      } catch {
        // A stream that breaks is begun anew; whether the service is reached is told by the calls that record.
        if (!mine.aborted) timer = setTimeout(() => void listen(), pause);
      }
    };
    const seen = () => void listen();
    document.addEventListener("visibilitychange", seen);
    void listen();
    return () => {
      document.removeEventListener("visibilitychange", seen);
      clearTimeout(timer);
      stop.abort();
    };
  }, [name, reached]);
}
