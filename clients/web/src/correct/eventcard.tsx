import { useState } from "preact/hooks";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { go } from "../route";
import type { Ready } from "../screens/jobframe";
import type { JobEvent } from "../wire/contract";
import type { Failure } from "../wire/failure";
import { moment } from "../words/clock";
import { phrase } from "../words/phrase";
import { big } from "../words/word";
import { Changes } from "./changes";
import { begin, sendCorrection } from "./draft";
import { holdsIn, isCorrectable, isWithdrawable, kindOf, moreOf } from "./kinds";
import { groupsOf } from "./lines";

type Props = { job: Ready; event: JobEvent; all: JobEvent[] };

// EventCard is one thing that happened: what it says, what became of it, and what can be mended in it.
export function EventCard({ job, event, all }: Props) {
  const [withdrawing, withdraw] = useState(false);
  const by = event.corrected_by && event.corrected_by !== "0" ? all.find((e) => e.sequence === event.corrected_by)?.correction : undefined;
  const holds = by ? holdsIn(by) : holdsIn(event);
  const gone = by !== undefined && !isCorrectable(by as JobEvent);
  const waits = job.mine.some(
    (e) => e.method === "correctEvent" && (e.question as { correction?: { sequence?: string } }).correction?.sequence === event.sequence,
  );
  const what = kindOf(event);
  const groups = groupsOf(holdsIn(event)).filter(([, lines]) => lines.length > 0);
  const more = moreOf(event);
  return (
    <li class="card event" id={`event-${event.sequence}`}>
      <h3>
        <small>{event.sequence}</small> {what}
      </h3>
      <p class="soft">{[moment(event.happen_time ?? event.record_time), event.recorded_by].filter(Boolean).join(" · ")}</p>
      {more && <p>{more}</p>}
      {by && (
        <div class="corrected">
          <Mark shape="care">{gone ? phrase("Taken back") : phrase("Corrected")}</Mark>
          <p>{phrase("Why: {why}", { why: by.why ?? "" })}</p>
          {!gone && <Changes was={holdsIn(event)} now={holds} />}
        </div>
      )}
      {groups.length > 0 && (
        <details class="fold">
          <summary>{by ? phrase("What it was") : phrase("What it holds")}</summary>
          {groups.map(([about, lines]) => (
            <div key={about}>
              {about && <h4>{about}</h4>}
              <dl>
                {lines.map(([name, value], i) => (
                  <div key={i}>
                    <dt>{big(name)}</dt>
                    <dd>{value}</dd>
                  </div>
                ))}
              </dl>
            </div>
          ))}
        </details>
      )}
      {waits && <Mark shape="wait">{phrase("A correction of it waits to be sent")}</Mark>}
      {!waits && isWithdrawable(event) && (
        <div class="actions">
          {isCorrectable(event) && (
            <button
              type="button"
              aria-label={phrase("Correct event {n}: {what}", { n: event.sequence ?? "", what })}
              onClick={() => void begin(job, event, gone ? holdsIn(event) : holds).then((id) => go("job", id, "correct"))}
            >
              {phrase("Correct")}
            </button>
          )}
          {!gone && !withdrawing && (
            <button
              type="button"
              class="quiet"
              aria-label={phrase("Take back event {n}: {what}", { n: event.sequence ?? "", what })}
              onClick={() => withdraw(true)}
            >
              {phrase("Take back")}
            </button>
          )}
        </div>
      )}
      {withdrawing && !gone && !waits && <Withdrawing job={job} event={event} onDone={() => withdraw(false)} />}
    </li>
  );
}

function Withdrawing({ job, event, onDone }: { job: Ready; event: JobEvent; onDone: () => void }) {
  const [why, write] = useState("");
  const [refused, refuse] = useState<Failure>();
  const send = async () => {
    const failure = await sendCorrection(job.name, { sequence: event.sequence, why: why.trim() });
    refuse(failure);
    if (failure) return;
    say(phrase("Taking back kept; it is sent when the service is reached."));
    onDone();
  };
  return (
    <>
      <TextEntry label={phrase("Why it is taken back")} value={why} onSet={write} most={500} />
      <Trouble failure={refused} />
      <div class="actions">
        <button type="button" class="main" disabled={why.trim() === ""} onClick={() => void send()}>
          {phrase("Take it back")}
        </button>
        <button type="button" class="quiet" onClick={onDone}>
          {phrase("Leave it")}
        </button>
      </div>
    </>
  );
}
