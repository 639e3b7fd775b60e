import { type Filter, stageChoices } from "../job/list";
import type { VehicleRecord } from "../wire/contract";
import { phrase } from "../words/phrase";

// JobFilter chooses among the jobs by stage and by vehicle.
export function JobFilter({ filter, vehicles, onSet }: { filter: Filter; vehicles: VehicleRecord[]; onSet: (f: Filter) => void }) {
  return (
    <div class="filter" role="search" aria-label={phrase("Jobs")}>
      <div class="entry">
        <label for="filter-stage">{phrase("Stage")}</label>
        <select id="filter-stage" value={filter.stages} onChange={(e) => onSet({ ...filter, stages: e.currentTarget.value })}>
          {stageChoices().map(([value, says]) => (
            <option key={value} value={value}>
              {says}
            </option>
          ))}
        </select>
      </div>
      <div class="entry">
        <label for="filter-vehicle">{phrase("Vehicle")}</label>
        <select id="filter-vehicle" value={filter.vehicle} onChange={(e) => onSet({ ...filter, vehicle: e.currentTarget.value })}>
          <option value="">{phrase("all vehicles")}</option>
          {vehicles.map((v) => (
            <option key={v.name} value={v.name}>
              {v.label}
            </option>
          ))}
        </select>
      </div>
    </div>
  );
}
