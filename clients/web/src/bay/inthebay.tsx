import type { ComponentChildren } from "preact";
import { useKept } from "../device/kept";
import { to } from "../route";
import { call } from "../wire/call";
import { stretch } from "../words/clock";
import { phrase } from "../words/phrase";
import { type Taken, taken } from "./calendar";

type Props = { bay: string; job: string; from: string | undefined; since: string | undefined; children: ComponentChildren };

const shown = 4; // stretches of others, before they are folded

// InTheBay lists what lies ahead in a bay: what others have of it from a time on, around which work is laid, and all of it. What it
// holds is shown where others are in the way.
export function InTheBay({ bay, job, from, since, children }: Props) {
  const named = /^[a-z0-9]+(-[a-z0-9]+)*$/.test(bay);
  const key = named ? `bay ${bay}` : undefined;
  const { value } = useKept(key, async () => (await call("BookingService", "getBayCalendar", { name: `bays/${bay}` })).ics ?? "", [since]);
  if (!named || value === undefined) return null;
  const now = new Date().toISOString();
  const ahead = taken(value).filter((t) => !t.cancelled && t.to > now);
  const others = from ? ahead.filter((t) => jobOf(t) !== job && t.to > new Date(from).toISOString()) : [];
  return (
    <>
      {others.length > 0 && (
        <section class="meanwhile" aria-label={phrase("Others in {bay} from then on", { bay })}>
          <h4>{phrase("Others in {bay} from then on", { bay })}</h4>
          <ul class="stretches">
            {others.slice(0, shown).map((t) => (
              <One key={t.uid} taken={t} job={job} />
            ))}
          </ul>
          {others.length > shown && <p class="hint">{phrase("and {n} more below", { n: others.length - shown })}</p>}
          <p class="hint">{phrase("The work is laid around what others have.")}</p>
          {children}
        </section>
      )}
      <details class="fold">
        <summary>{phrase("{n} {n|stretch|stretches} booked ahead in {bay}", { n: ahead.length, bay })}</summary>
        <ul class="stretches">
          {ahead.map((t) => (
            <One key={t.uid} taken={t} job={job} />
          ))}
        </ul>
      </details>
    </>
  );
}

// jobOf is the id of the job that an entry is of: its name for ever begins with it.
const jobOf = (t: Taken): string => t.uid.slice(0, t.uid.indexOf("."));

function One({ taken: t, job }: { taken: Taken; job: string }) {
  const mine = jobOf(t) === job;
  return (
    <li>
      {stretch(t.from, t.to)}: {mine ? `${t.says} (${phrase("this job")})` : <a href={to("job", jobOf(t), "bay")}>{t.says}</a>}
    </li>
  );
}
