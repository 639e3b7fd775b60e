import { crewOf, hasNewCrew, setCrew } from "../job/measured";
import { BoundedEntry } from "../parts/bounded";
import type { Ready } from "../screens/jobframe";
import { phrase } from "../words/phrase";

// Crew is who works, and how long a day is.
export function Crew({ job, days }: { job: Ready; days: number | undefined }) {
  const { people, day_hours } = crewOf(job);
  return (
    <section class="card" aria-labelledby="crew">
      <h2 id="crew">{phrase("Who works")}</h2>
      <div class="pair">
        <BoundedEntry
          label={phrase("People")}
          value={people}
          least={1}
          most={20}
          whole
          hint={phrase("Empty: one.")}
          onSet={(n) => setCrew(job.name, phrase("people"), "people", n)}
        />
        <BoundedEntry
          label={phrase("Hours a day")}
          value={day_hours}
          least={1}
          most={24}
          unit="h"
          hint={phrase("Empty: eight.")}
          onSet={(n) => setCrew(job.name, phrase("hours a day"), "day_hours", n)}
        />
      </div>
      {days !== undefined && <p role="status">{phrase("That makes {days} {days|working day|working days}.", { days })}</p>}
      {(people || day_hours || hasNewCrew(job)) && (
        <p class="hint">{hasNewCrew(job) ? phrase("Not on record yet; plans and bookings reckon with it all the same.") : phrase("On record.")}</p>
      )}
    </section>
  );
}
