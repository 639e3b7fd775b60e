import { Mark } from "../parts/marks";
import { to } from "../route";
import { moment, stretch } from "../words/clock";
import { parts, phrase } from "../words/phrase";
import type { Held } from "./taken";

type Props = { held: Held; busy: boolean; onTake: (free: string) => void; onOverlap: () => void };

// TakenBand says who has the bay and when it is free, and offers that time. Booking all the same stands apart.
export function TakenBand({ held, busy, onTake, onOverlap }: Props) {
  return (
    <div class="trouble taken" role="alert">
      <Mark shape="stop">{phrase("{bay} is taken", { bay: held.bay })}</Mark>
      <p>
        {parts("{job} has it: {time}.", {
          job: <a href={to("job", held.job, "bay")}>{phrase("Job {id}", { id: held.job })}</a>,
          time: stretch(held.from, held.to),
        })}
        {held.more > 0 && ` ${phrase("{n} {n|stretch|stretches} more {n|is|are} in the way.", { n: held.more })}`}
      </p>
      <p>{phrase("It is free for this from {time} on. Opening hours are left aside.", { time: moment(held.free) })}</p>
      <div class="actions">
        <button type="button" class="main" disabled={busy} onClick={() => onTake(held.free)}>
          {phrase("Take {time}", { time: moment(held.free) })}
        </button>
      </div>
      <Overlap busy={busy} onOverlap={onOverlap} />
    </div>
  );
}

// Overlap books time that others have. It is apart from all else, and says what it means.
export function Overlap({ busy, onOverlap }: { busy: boolean; onOverlap: () => void }) {
  return (
    <details class="fold inner">
      <summary>{phrase("Two vehicles in the bay at once?")}</summary>
      <p>{phrase("Nobody’s time is taken away: both jobs then have the bay at the same time. Do so only where both vehicles have room.")}</p>
      <button type="button" class="danger" disabled={busy} onClick={onOverlap}>
        {phrase("Book it all the same")}
      </button>
    </details>
  );
}
