import { useEffect, useId, useState } from "preact/hooks";
import * as database from "../device/database";
import { crewAsked, hasNewAreas } from "../job/measured";
import { say, Trouble } from "../parts/notice";
import { When } from "../parts/when";
import type { Ready } from "../screens/jobframe";
import type { Failure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { book, said } from "./booking";
import { InTheBay } from "./inthebay";
import { heldIn } from "./taken";
import { Overlap, TakenBand } from "./takenband";

const shelf = "bays of this device";

// BookBay lays the work of a job into the hours of a bay, from a date and a time on.
export function BookBay({ job, booked, start: begins }: { job: Ready; booked: string | undefined; start: string | undefined }) {
  const id = useId();
  const [bays, know] = useState<string[]>([]);
  const [bay, name] = useState(booked ?? "");
  const [from, set] = useState(begins ?? job.job?.book_time);
  const [wrong, complain] = useState<{ bay?: string; from?: string }>({});
  const [refused, refuse] = useState<Failure>();
  const [busy, work] = useState(false);
  useEffect(() => {
    void database.read<string[]>("kept", shelf).then(
      (known = []) => {
        know(known);
        if (!booked && known[0]) name((now) => now || (known[0] ?? ""));
      },
      () => undefined,
    );
  }, []);
  const ask = async (start = from, allow_overlap = false) => {
    const missing = {
      ...(bay.trim() ? {} : { bay: phrase("Name the bay, such as bay-1.") }),
      ...(start ? {} : { from: phrase("Say when the vehicle is there.") }),
    };
    complain(missing);
    if (!start || !bay.trim()) return;
    work(true);
    const crew = crewAsked(job);
    const work_ = { start_time: start, ...(crew ? { crew } : {}) };
    const failure = await book(job.name, { bay: bay.trim(), work: work_, ...(allow_overlap ? { allow_overlap } : {}) });
    work(false);
    refuse(failure);
    if (failure) return;
    const known = [bay.trim(), ...bays.filter((b) => b !== bay.trim())].slice(0, 12);
    know(known);
    void database.put("kept", shelf, known);
    say(phrase("Booked."));
  };
  const held = heldIn(refused);
  const bayWrong = wrong.bay ?? said(refused, "bay");
  const fromWrong = wrong.from ?? said(refused, "work.start_time");
  return (
    <form
      class="card"
      aria-labelledby={`${id}-h`}
      onSubmit={(e) => {
        e.preventDefault();
        void ask();
      }}
    >
      <h3 id={`${id}-h`}>{booked ? phrase("Book anew from another time or bay") : phrase("Book the work into a bay")}</h3>
      <div class="entry">
        <label for={`${id}-bay`}>{phrase("Bay")}</label>
        <input
          id={`${id}-bay`}
          list={`${id}-bays`}
          autocomplete="off"
          autocapitalize="none"
          maxLength={60}
          value={bay}
          aria-invalid={!!bayWrong}
          aria-describedby={`${id}-hint`}
          onInput={(e) => name(e.currentTarget.value)}
        />
        <datalist id={`${id}-bays`}>
          {bays.map((b) => (
            <option key={b} value={b} />
          ))}
        </datalist>
        <p id={`${id}-hint`} class={bayWrong ? "wrong" : "hint"} role={bayWrong ? "alert" : undefined}>
          {bayWrong || phrase("Small letters, digits and hyphens, such as bay-1.")}
        </p>
      </div>
      <When label={phrase("The vehicle is there from")} value={from} onSet={set} wrong={fromWrong} />
      {job.job?.stage === "JOB_STAGE_IN_WORK" && <p>{phrase("The job is in work: what is still to do is booked.")}</p>}
      <p class="hint">
        {phrase("The hours of the plan are laid into the opening hours of the shop’s catalogue, with the people and the hours a day of the plan.")}
      </p>
      {hasNewAreas(job) && <p class="hint">{phrase("Areas that are not on record yet are not reckoned with here. They go on record with the plan.")}</p>}
      {held && (
        <TakenBand
          held={held}
          busy={busy}
          onTake={(free) => {
            set(free);
            void ask(free);
          }}
          onOverlap={() => void ask(from, true)}
        />
      )}
      {!held && !(refused && (bayWrong || fromWrong)) && <Trouble failure={refused} />}
      <div class="actions">
        <button type="submit" class="main" disabled={busy}>
          {booked ? phrase("Book anew") : phrase("Book the bay")}
        </button>
      </div>
      <InTheBay bay={bay.trim()} job={job.id} from={from} since={job.job?.etag}>
        <Overlap busy={busy} onOverlap={() => void ask(from, true)} />
      </InTheBay>
    </form>
  );
}
