import { type Filter, stageChoices, useVehicles } from "../job/list";
import { phrase } from "../words/phrase";

// JobFilter chooses among the jobs by stage and by vehicle.
export function JobFilter({ filter, onSet }: { filter: Filter; onSet: (f: Filter) => void }) {
  const vehicles = useVehicles();
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
