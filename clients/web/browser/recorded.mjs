// A job that is inspected already, put on record through the service.
const marks = (severity) => [{ kind: "DEFECT_KIND_WASH_MARKS", severity }];
const surface = {
  substrate: "SUBSTRATE_STEEL",
  clean: true,
  taped: true,
  in_sun: false,
  edge_or_line: false,
  sensor_behind: false,
  repaint_known: false,
};

const panel = (id, part, severity, film, gloss) => ({
  id,
  part: `PANEL_PART_${part}`,
  defects: marks(severity),
  ...surface,
  film: [{ spot: "centre", total_um: film }],
  gloss: [{ spot: "a", at60_gu: gloss }],
});

export const inspection = {
  vehicle: {
    label: "Invented dark estate",
    size: "VEHICLE_SIZE_MEDIUM",
    paint: { system: "PAINT_SYSTEM_CLEAR_COAT", softness: "SOFTNESS_MEDIUM", shade: "SHADE_DARK" },
  },
  goal: { level: "GOAL_LEVEL_ENHANCE" },
  panels: [
    panel("bonnet", "BONNET", 4, [120, 119, 120], [84.2, 84.6, 84.4]),
    panel("roof", "ROOF", 3, [115, 116, 115], [85, 85.4, 85.1]),
    panel("door-front-left", "DOOR", 3, [118, 117, 118], [85.8, 85.5, 86]),
    panel("door-front-right", "DOOR", 3.5, [117, 117, 116], [85.2, 85.5, 85.3]),
  ],
};

// asked is the answer of a call that must not be refused.
export async function asked(service, name, method, question) {
  const answer = await service.call(name, method, question);
  if (answer.code) throw new Error(`${method}: ${answer.message}`);
  return answer;
}

// inspected makes a vehicle and a job and records the inspection.
export async function inspected(service, id, label = "Invented dark estate") {
  await asked(service, "JobService", "CreateVehicle", { vehicle: { ...inspection.vehicle, label }, vehicle_id: id });
  await asked(service, "JobService", "CreateJob", { job: { vehicle: `vehicles/${id}`, label: "first visit" }, job_id: id });
  await asked(service, "JobService", "RecordInspection", { name: `jobs/${id}`, inspection });
  return `jobs/${id}`;
}
