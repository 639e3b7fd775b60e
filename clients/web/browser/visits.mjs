// Visits on record, told to the service as a page or another program would: marks of grade 1.5 in medium paint start with a finish by
// the shipped rules; here it falls short every time, and a polish is accepted.
import assert from "node:assert/strict";

const gloss = (gu) =>
  [
    ["a", 0],
    ["b", 0.5],
    ["c", -0.4],
  ].map(([spot, more]) => ({ spot, at20_gu: [gu + more, gu + more + 0.3, gu + more - 0.2] }));

const marks = (severity) => [{ kind: "DEFECT_KIND_WASH_MARKS", severity }];

const inspection = {
  goal: { level: "GOAL_LEVEL_SHOW", protection: "PROTECTION_WAX" },
  climate: { air_c: 21, humidity_pct: 45, panel_c: 20 },
  vehicle: { paint: { system: "PAINT_SYSTEM_CLEAR_COAT", softness: "SOFTNESS_MEDIUM", shade: "SHADE_DARK" } },
  panels: [
    {
      id: "bonnet",
      substrate: "SUBSTRATE_STEEL",
      clean: true,
      in_sun: false,
      repaint_known: false,
      edge_or_line: false,
      sensor_behind: false,
      film: [
        { spot: "centre", total_um: [150, 150.4, 149.8] },
        { spot: "left", total_um: [151, 150.8, 151.1] },
      ],
      gloss: gloss(70),
      defects: marks(1.5),
    },
  ],
};

const trial = (step, left) => ({
  panel_id: "bonnet",
  trial: {
    step,
    after: gloss(88),
    left: marks(left),
    trails_left: 0,
    wipe_off: "WIPE_OFF_CLEAN",
    panel_c: 28,
    minutes: 7,
    pad_loaded: false,
    color_transfer: false,
    panel_wiped: true,
    fresh_section: true,
  },
});

// visit records n visits.
export async function visit(service, n) {
  const ask = async (method, question) => {
    const said = await service.call("JobService", method, question);
    assert.equal(said.code, undefined, `${method}: ${said.message}`);
    return said;
  };
  for (let i = 0; i < n; i++) {
    await ask("CreateVehicle", { vehicle_id: `visit-${i}`, vehicle: { label: "saloon (invented)" } });
    await ask("CreateJob", { job_id: `visit-${i}`, job: { vehicle: `vehicles/visit-${i}` } });
    await ask("RecordInspection", { name: `jobs/visit-${i}`, inspection });
    await ask("RecordTrial", { name: `jobs/visit-${i}`, trial: trial("STEP_FINISH", 1.5) });
    await ask("RecordTrial", { name: `jobs/visit-${i}`, trial: trial("STEP_POLISH", 0.5) });
  }
}
