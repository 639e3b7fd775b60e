import { useEffect, useRef, useState } from "preact/hooks";
import * as database from "../device/database";
import { Trouble } from "../parts/notice";
import type { ReplayReport } from "../wire/contract";
import { type Failure, toFailure } from "../wire/failure";
import { listen } from "../wire/stream";
import { phrase } from "../words/phrase";
import { ReplayTold } from "./replaytold";

// Replay asks the texts what every decision on record was asked. It runs when somebody wants it, and can be given up.
export function Replay({ texts, loads }: { texts: Record<string, string>; loads: boolean }) {
  const [done, count] = useState<number>();
  const [report, tell] = useState<ReplayReport>();
  const [failure, fail] = useState<Failure>();
  const [of, guess] = useState<number>();
  const [told, keep] = useState<Record<string, string>>();
  const leave = useRef<AbortController>(undefined);
  const end = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // How many there were the last time; the service does not count them beforehand.
    database.read<number>("kept", "decisions").then(guess, () => undefined);
    return () => leave.current?.abort();
  }, []);

  const run = async () => {
    const mine = new AbortController();
    leave.current = mine;
    fail(undefined);
    tell(undefined);
    count(0);
    try {
      for await (const said of listen("HistoryService", "replayRules", { files: texts }, mine.signal)) {
        if (said.decisions_done) count(Number(said.decisions_done));
        if (!said.report) continue;
        tell(said.report);
        keep(texts);
        guess(said.report.decisions ?? 0);
        void database.put("kept", "decisions", said.report.decisions ?? 0).catch(() => undefined);
        setTimeout(() => end.current?.focus({ preventScroll: true }));
      }
    } catch (thrown) {
      if (!mine.signal.aborted) fail(toFailure(thrown));
    }
    count(undefined);
  };

  const running = done !== undefined;
  return (
    <>
      <p>{phrase("Asks these rules what every decision on record was asked, with the facts as they were seen. Nothing is changed.")}</p>
      {running ? (
        <>
          <progress aria-label={phrase("Decisions asked again")} {...(of && done ? { value: Math.min(done, of), max: of } : {})} />
          <p role="status">
            {of && done ? phrase("{done} decisions asked again, of about {of}", { done, of }) : phrase("{done} decisions asked again", { done })}
          </p>
          <div class="actions">
            <button type="button" onClick={() => leave.current?.abort()}>
              {phrase("Cancel")}
            </button>
          </div>
        </>
      ) : (
        <div class="actions">
          <button type="button" disabled={!loads} onClick={() => void run()}>
            {report ? phrase("Ask the record once more") : phrase("Ask the record")}
          </button>
          {!loads && <p class="hint">{phrase("Once the set loads.")}</p>}
        </div>
      )}
      <Trouble failure={failure} />
      <div ref={end} tabIndex={-1}>
        {report && told !== texts && <p class="hint">{phrase("This was told of an earlier text.")}</p>}
        {report && <ReplayTold report={report} />}
      </div>
    </>
  );
}
