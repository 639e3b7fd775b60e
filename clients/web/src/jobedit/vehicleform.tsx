import { useState } from "preact/hooks";
import { useKept } from "../device/kept";
import { plain } from "../job/plain";
import { WordChoice } from "../parts/choice";
import { TextEntry } from "../parts/entry";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { PaintEntry, YearEntry } from "../parts/vehicle";
import type { Ready } from "../screens/jobframe";
import { call } from "../wire/call";
import type { VehicleRecord } from "../wire/contract";
import { phrase } from "../words/phrase";
import { updateVehicle } from "./change";

// VehicleForm changes what the shop keeps of the vehicle between its visits.
export function VehicleForm({ job }: { job: Ready }) {
  const waits = job.mine.some((e) => e.method === "updateVehicle" || e.method === "createVehicle");
  const name = job.job?.vehicle || job.draft.vehicle;
  const { value, failure, again } = useKept(`vehicle ${name}`, async () => plain(await call("JobService", "getVehicle", { name })), [waits]);
  return (
    <section class="card" aria-labelledby="vehicle-form">
      <h2 id="vehicle-form">{phrase("The vehicle")}</h2>
      {waits && <Mark shape="wait">{phrase("A change waits on this device")}</Mark>}
      {!value && !waits && <Trouble failure={failure} again={again} />}
      {value && <Form key={value.etag} job={job} vehicle={value} waits={waits} />}
    </section>
  );
}

const fields = ["label", "size", "built_year", "paint", "notes"] as const;

function Form({ job, vehicle, waits }: { job: Ready; vehicle: VehicleRecord; waits: boolean }) {
  const [now, set] = useState(vehicle);
  const [wrong, complain] = useState("");
  const changed = fields.filter((f) => JSON.stringify(now[f] ?? "") !== JSON.stringify(vehicle[f] ?? ""));
  const keep = async () => {
    if (!now.label?.trim()) {
      complain(phrase("Give the vehicle a name that the shop knows it by."));
      return;
    }
    const next = Object.fromEntries(changed.map((f) => [f, now[f]])) as Partial<VehicleRecord>;
    await updateVehicle(job.name, vehicle.name ?? "", vehicle.etag, next);
    say(phrase("The vehicle’s record is kept; it is sent when the service is reached."));
  };
  return (
    <details class="fold">
      <summary>{vehicle.label}</summary>
      <TextEntry
        label={phrase("Name of the vehicle")}
        value={now.label ?? ""}
        onSet={(label) => (complain(""), set({ ...now, label }))}
        most={100}
        wrong={wrong}
      />
      <WordChoice label={phrase("Size")} fact="vehicle.size" prefix="VEHICLE_SIZE" value={now.size} onPick={(size) => set({ ...now, size })} />
      <YearEntry value={now.built_year} onSet={(built_year) => set({ ...now, built_year })} />
      <PaintEntry paint={now.paint ?? {}} onSet={(paint) => set({ ...now, paint })} />
      <TextEntry
        label={phrase("Notes on the vehicle")}
        value={now.notes ?? ""}
        onSet={(notes) => set({ ...now, notes })}
        most={2000}
        lines={3}
        hint={phrase("No personal data.")}
      />
      <div class="actions">
        <button type="button" class="main" disabled={changed.length === 0 || waits} onClick={() => void keep()}>
          {phrase("Keep the vehicle’s record")}
        </button>
      </div>
    </details>
  );
}
