import { useKept } from "../device/kept";
import { call } from "../wire/call";
import { stretch } from "../words/clock";
import { phrase } from "../words/phrase";
import { taken } from "./calendar";

// InTheBay lists what lies ahead in a bay, of this job and of others.
export function InTheBay({ bay, job, since }: { bay: string; job: string; since: string | undefined }) {
  const named = /^[a-z0-9]+(-[a-z0-9]+)*$/.test(bay);
  const key = named ? `bay ${bay}` : undefined;
  const { value } = useKept(key, async () => (await call("BookingService", "getBayCalendar", { name: `bays/${bay}` })).ics ?? "", [since]);
  if (!named || value === undefined) return null;
  const now = new Date().toISOString();
  const ahead = taken(value).filter((t) => !t.cancelled && t.to > now);
  return (
    <details class="fold">
      <summary>{phrase("{n} {n|stretch|stretches} booked ahead in {bay}", { n: ahead.length, bay })}</summary>
      <ul>
        {ahead.map((t) => (
          <li key={t.uid}>
            {stretch(t.from, t.to)}: {t.says}
            {t.uid.startsWith(`${job}.`) && ` (${phrase("this job")})`}
          </li>
        ))}
      </ul>
    </details>
  );
}
