import { useState } from "preact/hooks";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { When } from "../parts/when";
import type { Ready } from "../screens/jobframe";
import type { BayBlock } from "../wire/contract";
import type { Failure } from "../wire/failure";
import { stretch } from "../words/clock";
import { phrase } from "../words/phrase";
import { big } from "../words/word";
import { book, free, said } from "./booking";
import { heldIn } from "./taken";
import { TakenBand } from "./takenband";

type Props = { job: Ready; bay: string; blocks: BayBlock[]; closed: boolean };

// Blocks are the stretches that are booked, each of which can be moved.
export function Blocks({ job, bay, blocks, closed }: Props) {
  const [moving, move] = useState<number>();
  const [refused, refuse] = useState<Failure>();
  const giveBack = async () => {
    const failure = await free(job.name, job.job?.etag);
    refuse(failure);
    if (!failure) say(phrase("Bay time given back."));
  };
  return (
    <section class="card" aria-labelledby="blocks">
      <h3 id="blocks">{phrase("Booked in {bay}", { bay })}</h3>
      <ul class="plain">
        {blocks.map((b, i) => (
          <li key={i} class="block">
            <b>{big(b.what ?? "")}</b>
            <span>{stretch(b.start_time, b.end_time)}</span>
            {!closed && moving !== i && (
              <button
                type="button"
                class="quiet"
                aria-label={phrase("Move {what}, {time}", { what: b.what ?? "", time: stretch(b.start_time, b.end_time) })}
                onClick={() => move(i)}
              >
                {phrase("Move")}
              </button>
            )}
            {moving === i && <Move job={job} bay={bay} blocks={blocks} at={i} onDone={() => move(undefined)} />}
          </li>
        ))}
      </ul>
      {job.job?.stage === "JOB_STAGE_CANCELLED" && <Mark shape="stop">{phrase("The job was cancelled, and calendars strike this out.")}</Mark>}
      <Trouble failure={refused} />
      {!closed && (
        <button type="button" class="quiet" onClick={() => void giveBack()}>
          {phrase("Give the bay time back")}
        </button>
      )}
    </section>
  );
}

type MoveProps = { job: Ready; bay: string; blocks: BayBlock[]; at: number; onDone: () => void };

// Move gives one block another time. A new start takes the end along.
function Move({ job, bay, blocks, at, onDone }: MoveProps) {
  const old = blocks[at];
  const [block, set] = useState<BayBlock>(old ?? {});
  const [refused, refuse] = useState<Failure>();
  const [wrong, complain] = useState("");
  const [busy, work] = useState(false);
  const length = new Date(old?.end_time ?? 0).getTime() - new Date(old?.start_time ?? 0).getTime();
  const all = inOrder(blocks.with(at, block));
  const field = `blocks.blocks[${all.indexOf(block)}]`;
  const next = `blocks.blocks[${all.indexOf(block) + 1}]`; // which may begin before this one ends
  const start = (start_time: string | undefined) =>
    start_time && set({ ...block, start_time, end_time: new Date(new Date(start_time).getTime() + length).toISOString() });
  const keep = async (now = block, allow_overlap = false) => {
    const ends = (now.end_time ?? "") > (now.start_time ?? "");
    complain(ends ? "" : phrase("The end has to be after the start."));
    refuse(undefined);
    if (!ends) return;
    work(true);
    const failure = await book(job.name, { bay, blocks: { blocks: inOrder(blocks.with(at, now)) }, ...(allow_overlap ? { allow_overlap } : {}) });
    work(false);
    refuse(failure);
    if (failure) return;
    say(phrase("Moved."));
    onDone();
  };
  const held = heldIn(refused);
  const takeFree = (free: string) => {
    const span = new Date(block.end_time ?? 0).getTime() - new Date(block.start_time ?? 0).getTime();
    const then = { ...block, start_time: free, end_time: new Date(new Date(free).getTime() + span).toISOString() };
    set(then);
    void keep(then);
  };
  const atField = said(refused, field, next);
  return (
    <div class="moving">
      <TextEntry label={phrase("What is done")} value={block.what ?? ""} onSet={(what) => set({ ...block, what })} most={100} />
      <When label={phrase("From")} value={block.start_time} onSet={start} wrong={said(refused, `${field}.start_time`, `${field}.what`)} />
      <When
        label={phrase("To")}
        value={block.end_time}
        onSet={(end_time) => set({ ...block, end_time })}
        wrong={wrong || said(refused, `${field}.end_time`, next)}
      />
      {held && <TakenBand held={held} busy={busy} onTake={takeFree} onOverlap={() => void keep(block, true)} />}
      {!atField && !held && <Trouble failure={refused} />}
      <div class="actions">
        <button type="button" class={held ? "quiet" : "main"} disabled={busy} onClick={() => void keep()}>
          {phrase("Book it so")}
        </button>
        <button type="button" class="quiet" onClick={onDone}>
          {phrase("Leave it")}
        </button>
      </div>
    </div>
  );
}

// inOrder puts blocks in order of time, as the service takes them. Those that overlap stay for it to refuse.
const inOrder = (blocks: BayBlock[]): BayBlock[] => blocks.toSorted((a, b) => ((a.start_time ?? "") < (b.start_time ?? "") ? -1 : 1));
