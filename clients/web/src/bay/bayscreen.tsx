import { reach } from "../device/reach";
import { useStore } from "../device/store";
import { isClosed } from "../job/ticks";
import { Mark } from "../parts/marks";
import { to } from "../route";
import type { Ready } from "../screens/jobframe";
import { zone } from "../words/clock";
import { phrase } from "../words/phrase";
import { Blocks } from "./blocks";
import { BookBay } from "./bookbay";
import { CalendarLinks } from "./links";

// BayScreen is the bay time of a job: what is booked, moving it, and calendars that follow it.
export function BayScreen({ job }: { job: Ready }) {
  const away = useStore(reach) !== "reached";
  const bay = job.job?.bay;
  const closed = isClosed(job.job);
  return (
    <>
      <div class="heading">
        <h2>{phrase("Bay time")}</h2>
        <a class="button quiet" href={to("job", job.id, "plan")}>
          {phrase("The plan in full")}
        </a>
      </div>
      {away && (
        <div class="band">
          <Mark shape="wait">{phrase("Bay time needs the service: it is booked when the service says so, not before.")}</Mark>
        </div>
      )}
      {job.mine.length > 0 && <p class="hint">{phrase("Entries of this job still wait on this device. The hours are reckoned from what is on record.")}</p>}
      <div class="split even">
        <div>
          {bay?.blocks?.length ? (
            <Blocks key={JSON.stringify(bay.blocks)} job={job} bay={bay.bay ?? ""} blocks={bay.blocks} closed={closed} />
          ) : (
            <p class="empty">{phrase("No bay time is booked.")}</p>
          )}
          <p class="hint">{phrase("Times are those of this device: {zone}.", { zone: zone() })}</p>
          {job.job && <CalendarLinks id={job.id} bay={bay?.bay} />}
        </div>
        {!closed && <BookBay job={job} booked={bay?.bay} start={bay?.blocks?.[0]?.start_time} />}
      </div>
    </>
  );
}
