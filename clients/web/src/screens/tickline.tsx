import { useState } from "preact/hooks";
import { requestOf, waiting, withdraw } from "../device/outbox";
import { eventsOf } from "../job/job";
import { recordProgress, takeBackEvent } from "../job/record";
import { isOver, type Line, queuedFor } from "../job/ticks";
import { TextEntry } from "../parts/entry";
import { Mark, StepMark } from "../parts/marks";
import { say } from "../parts/notice";
import type { JobEvent } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big, panelName, small, word } from "../words/word";
import type { Ready } from "./jobframe";

type Props = { job: Ready; line: Line; sections?: number | undefined; closed: boolean };

// TickLine is one step on one panel: to begin, to tick off, to leave out with a reason, or to take back.
export function TickLine({ job, line, sections, closed }: Props) {
  const [leaving, leave] = useState(false);
  const [note, write] = useState("");
  const step = word(line.step, "STEP");
  const name = phrase("{step} on {panel}", { step, panel: small(panelName(line.panel)) });
  const done = line.state === "STEP_STATE_DONE";
  const takeBack = async (request?: string) => {
    const mineNow = waiting.now.filter((e) => e.job === job.name); // not those of when it was ticked
    const queued = queuedFor(mineNow, line.panel, line.step);
    if (!queued || !(await withdraw(queued))) {
      const id = request ?? (queued && requestOf(queued));
      const mine = (e: JobEvent) =>
        e.progress?.panel_id === line.panel && e.progress.step === line.step && (id ? e.request_id === id : !e.corrected_by || e.corrected_by === "0");
      const event = (await eventsOf(job.name)).findLast(mine);
      if (!event?.sequence) throw new Error(phrase("it is being sent; try again in a moment"));
      await takeBackEvent(job.name, event.sequence, phrase("ticked by mistake"));
    }
    say(phrase("Taken back: {what}", { what: name }));
  };
  const tryBack = (request?: string) =>
    void takeBack(request).catch((e) => say(phrase("Not taken back: {why}", { why: e instanceof Error ? e.message : String(e) })));
  const tick = async () => {
    const request = await recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_DONE" });
    say(phrase("Done: {what}", { what: name }), { says: phrase("Undo"), run: () => tryBack(request) });
  };
  return (
    <li class="tick">
      {isOver(line) ? (
        <Mark shape={done ? "done" : "away"}>{done ? phrase("{step} done", { step: big(step) }) : phrase("{step} left out", { step: big(step) })}</Mark>
      ) : (
        <button type="button" class="tick-button" disabled={closed} onClick={() => void tick()} aria-label={phrase("Tick off {what}", { what: name })}>
          <span class="box" aria-hidden="true" />
          <StepMark step={line.step} />
        </button>
      )}
      {!isOver(line) && sections !== undefined && <span class="soft">{phrase("{n} {n|section|sections}", { n: sections })}</span>}
      {line.waits && <span class="soft">{phrase("waits to be sent")}</span>}
      {isOver(line) && !closed && (
        <button type="button" class="quiet" aria-label={phrase("Take back: {what}", { what: name })} onClick={() => tryBack()}>
          {phrase("Take back")}
        </button>
      )}
      {line.state === "STEP_STATE_UNDER_WAY" && <Mark shape="half">{phrase("under way")}</Mark>}
      {line.state === "STEP_STATE_OPEN" && !closed && !leaving && (
        <button
          type="button"
          class="quiet"
          aria-label={phrase("Begin {what}", { what: name })}
          onClick={() => void recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_UNDER_WAY" })}
        >
          {phrase("Begin")}
        </button>
      )}
      {!isOver(line) && !closed && !leaving && (
        <button type="button" class="quiet" aria-label={phrase("Leave out {what}", { what: name })} onClick={() => leave(true)}>
          {phrase("Leave out")}
        </button>
      )}
      {leaving && !isOver(line) && (
        <div class="leaving">
          <TextEntry label={phrase("Why {what} is left out", { what: name })} value={note} onSet={write} most={500} />
          <button
            type="button"
            disabled={note.trim() === ""}
            onClick={() => void recordProgress(job.name, { panel: line.panel, step: line.step, state: "STEP_STATE_LEFT_OUT", note: note.trim() })}
          >
            {phrase("Leave it out")}
          </button>
        </div>
      )}
    </li>
  );
}
