import { useState } from "preact/hooks";
import { startDraft } from "../device/drafts";
import { newRequestId, post } from "../device/outbox";
import { useVehicles } from "../job/list";
import { WordChoice } from "../parts/choice";
import { TextEntry } from "../parts/entry";
import { type Paint, PaintEntry, YearEntry } from "../parts/vehicle";
import { go } from "../route";
import type { Inspection, VehicleRecord } from "../wire/contract";
import { phrase } from "../words/phrase";

// An id that the device makes up itself, so that a job can begin where there is no network.
function newId(): string {
  const letters = "abcdefghjkmnpqrstvwxyz23456789";
  return [...crypto.getRandomValues(new Uint8Array(12))].map((b) => letters[b % letters.length]).join("");
}

// NewJob books a vehicle in.
export function NewJob() {
  const known = useVehicles();
  const [chosen, choose] = useState("");
  const [label, name] = useState("");
  const [visit, call_it] = useState("");
  const [size, setSize] = useState<VehicleRecord["size"]>();
  const [paint, setPaint] = useState<Paint>({});
  const [year, setYear] = useState<number>();
  const [goal, setGoal] = useState<NonNullable<Inspection["goal"]>>({});
  const [wrong, complain] = useState("");
  const old = known.find((v) => v.name === chosen);

  const begin = async () => {
    const title = old?.label ?? label.trim();
    if (!title) {
      complain(phrase("Give the vehicle a name that the shop knows it by."));
      document.querySelector<HTMLElement>("#vehicle-name input")?.focus();
      return;
    }
    const job = `jobs/${newId()}`;
    const vehicle = old?.name ?? `vehicles/${newId()}`;
    const ours: Paint = old ? withoutOpen(old.paint) : paint;
    const inspection: Inspection = { vehicle: { label: title, size: old ? old.size : size, paint: ours }, goal, panels: [] };
    await startDraft({ job, label: visit.trim(), vehicle, vehicleLabel: title, inspection, trials: {} });
    if (!old) {
      const record: VehicleRecord = {
        label: title,
        ...(size ? { size } : {}),
        ...(year ? { built_year: year } : {}),
        paint: { ...paint, age_years: undefined },
      };
      await post(
        job,
        "createVehicle",
        { vehicle: record, vehicle_id: vehicle.slice("vehicles/".length), request_id: newRequestId() },
        phrase("vehicle {name}", { name: title }),
      );
    }
    await post(
      job,
      "createJob",
      { job: { vehicle, label: visit.trim() }, job_id: job.slice("jobs/".length), request_id: newRequestId() },
      phrase("job for {name}", { name: title }),
    );
    go("job", job.slice("jobs/".length), "inspect");
  };

  return (
    <form
      class="narrow"
      onSubmit={(e) => {
        e.preventDefault();
        const bad = e.currentTarget.querySelector<HTMLElement>("[aria-invalid=true]");
        if (bad && !bad.closest("#vehicle-name")) bad.focus();
        else void begin();
      }}
    >
      <h1>{phrase("New job")}</h1>
      {known.length > 0 && (
        <div class="entry">
          <label for="vehicle">{phrase("Vehicle")}</label>
          <select id="vehicle" value={chosen} onChange={(e) => choose(e.currentTarget.value)}>
            <option value="">{phrase("a new one")}</option>
            {known.map((v) => (
              <option key={v.name} value={v.name}>
                {v.label}
              </option>
            ))}
          </select>
        </div>
      )}
      {!old && (
        <>
          <div id="vehicle-name">
            <TextEntry
              label={phrase("Name of the vehicle")}
              value={label}
              onSet={(v) => (complain(""), name(v))}
              most={100}
              hint={phrase("As the shop knows it, such as “dark blue estate, bay 2”. No personal data.")}
              wrong={wrong}
            />
          </div>
          <WordChoice label={phrase("Size")} fact="vehicle.size" prefix="VEHICLE_SIZE" value={size} onPick={setSize} />
          <YearEntry value={year} onSet={setYear} />
          <PaintEntry paint={paint} onSet={setPaint} />
        </>
      )}
      <TextEntry label={phrase("What to call the visit")} value={visit} onSet={call_it} most={100} hint={phrase("May be left empty.")} />
      <WordChoice
        label={phrase("What the owner wants")}
        fact="goal.level"
        prefix="GOAL_LEVEL"
        value={goal.level}
        onPick={(level) => setGoal({ ...goal, level })}
        open={phrase("not asked yet")}
      />
      <WordChoice
        label={phrase("What goes on afterwards")}
        fact="goal.protection"
        prefix="PROTECTION"
        value={goal.protection}
        onPick={(protection) => setGoal({ ...goal, protection })}
        open={phrase("not asked yet")}
      />
      <div class="actions foot">
        <button type="submit" class="main">
          {phrase("Begin the inspection")}
        </button>
      </div>
    </form>
  );
}

function withoutOpen(paint: VehicleRecord["paint"]): Paint {
  return Object.fromEntries(Object.entries(paint ?? {}).filter(([, v]) => !(typeof v === "string" && v.endsWith("_UNSPECIFIED")))) as Paint;
}
