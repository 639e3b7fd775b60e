import { useEffect } from "preact/hooks";
import { reach } from "../device/reach";
import { useStore } from "../device/store";
import type { Job } from "../wire/contract";
import { listen, quiet } from "../wire/stream";
import { jobStore } from "./opening";

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
    const follow = async () => {
      stop.abort();
      clearTimeout(timer);
      if (document.visibilityState !== "visible") return;
      stop = new AbortController();
      const mine = stop.signal;
      try {
        for await (const said of listen("JobService", "watchJob", { name, after_sequence: String(known()) }, mine, quiet))
          if (Number(said.event?.sequence ?? 0) > known()) refresh();
      } catch {
        // A stream that breaks is begun anew.
        if (!mine.aborted) timer = setTimeout(() => void follow(), pause);
      }
    };
    const seen = () => void follow();
    document.addEventListener("visibilitychange", seen);
    void follow();
    return () => {
      document.removeEventListener("visibilitychange", seen);
      clearTimeout(timer);
      stop.abort();
    };
  }, [name, reached]);
}
