// A shop with a job at every point that a job comes to, put on record through the service.
import { asked, inspected } from "./recorded.mjs";
import { visit } from "./visits.mjs";

// nextMonday is far enough ahead to lie in the opening hours of the shipped catalogue, whatever the day of the test.
export function nextMonday() {
  const d = new Date();
  d.setUTCDate(d.getUTCDate() + 60);
  while (d.getUTCDay() !== 1 || (d.getUTCMonth() === 11 && d.getUTCDate() > 20)) d.setUTCDate(d.getUTCDate() + 1);
  return d.toISOString().slice(0, 10);
}

const polish = { panel_id: "roof", step: "STEP_POLISH" };
const gloss = (time, gu) => ({
  panel_id: "bonnet",
  time,
  step: "STEP_POLISH",
  gloss: ["a", "b", "c"].map((spot) => ({ spot, at20_gu: [gu, gu + 0.2, gu - 0.1] })),
});

// fill records visits accepted at a polish ("visit-0" and on), of which the first is in work and falls behind, and jobs that are
// named by how far they are: booked, inspected, tried, bay, planned, finished and cancelled.
export async function fill(service, visits = 1) {
  const jobs = (method, question) => asked(service, "JobService", method, question);
  await visit(service, visits);
  await jobs("RecordPlan", { name: "jobs/visit-0", plan: { panels: [{ panel_id: "bonnet", ladder: "LADDER_POLISH" }] } });
  await jobs("RecordProgress", { name: "jobs/visit-0", progress: [{ panel_id: "bonnet", step: "STEP_POLISH", state: "STEP_STATE_UNDER_WAY" }] });
  await jobs("RecordReadings", { name: "jobs/visit-0", readings: [gloss("READINGS_TIME_DURING", 76)] });

  await jobs("CreateVehicle", { vehicle: { label: "Invented pick-up" }, vehicle_id: "booked" });
  await jobs("CreateJob", { job: { vehicle: "vehicles/booked" }, job_id: "booked" });
  for (const id of ["inspected", "tried", "bay", "planned", "finished", "cancelled"]) await inspected(service, id);
  const trial = {
    step: "STEP_POLISH",
    panel_wiped: true,
    after: [{ spot: "a", at60_gu: [85] }],
    left: [{ kind: "DEFECT_KIND_WASH_MARKS", severity: 3 }],
  };
  await jobs("RecordTrial", { name: "jobs/tried", trial: { panel_id: "bonnet", trial } });
  const start_time = `${nextMonday()}T09:00:00Z`;
  await asked(service, "BookingService", "BookBay", { name: "jobs/bay", bay: "bay-2", work: { start_time } });
  for (const id of ["planned", "finished"]) {
    const name = `jobs/${id}`;
    await jobs("RecordPlan", {
      name,
      plan: {
        panels: [
          { panel_id: "roof", ladder: "LADDER_POLISH_FINISH" },
          { panel_id: "bonnet", ladder: "LADDER_POLISH" },
        ],
      },
    });
    await jobs("RecordProgress", { name, progress: [{ ...polish, state: "STEP_STATE_DONE", minutes: 42, sections_done: 6, note: "Warm bay." }] });
    await jobs("RecordReadings", {
      name,
      readings: [{ ...polish, time: "READINGS_TIME_AFTER", gloss: [{ spot: "a", at60_gu: [89, 88.9, 89.2] }], note: "After wiping." }],
    });
  }
  await jobs("RecordProgress", { name: "jobs/planned", progress: [{ panel_id: "bonnet", step: "STEP_POLISH", state: "STEP_STATE_UNDER_WAY" }] });
  const rest = [
    { panel_id: "roof", step: "STEP_FINISH", state: "STEP_STATE_LEFT_OUT", note: "The gloss was there." },
    { panel_id: "bonnet", step: "STEP_POLISH", state: "STEP_STATE_DONE" },
  ];
  await jobs("RecordProgress", { name: "jobs/finished", progress: rest });
  await jobs("FinishJob", { name: "jobs/finished", closing: { note: "Marks of grade 0.5 were left: more would cost film." } });
  await jobs("CancelJob", { name: "jobs/cancelled", closing: { note: "The owner sold the vehicle." } });
}
