// The whole job on a phone, from booking in to the record for the owner. How its screens look is held in screens.test.mjs.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, until } from "./house.mjs";
import { grade, minutesOf, newJob, pick, readings, waitSent } from "./walk.mjs";

const shots = process.env.SHOTS; // a folder to put pictures in, for whoever wants to look
let service, browser;

before(async () => {
  service = await serve();
  browser = await openBrowser();
  if (shots) mkdirSync(shots, { recursive: true });
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const panels = {
  Bonnet: {
    film: { centre: [120, 119, 120], front: [116, 117, 116] },
    gloss20: { a: [71.8, 72.3, 72], b: [73.1, 72.7, 73], c: [70.9, 71.4, 71.1] },
    gloss60: { a: [84.2, 84.6, 84.4], b: [85.1, 84.8, 85], c: [83.5, 83.9, 83.7] },
  },
  Roof: { film: { centre: [115, 116, 115], rear: [113, 114, 113] }, gloss60: { a: [85, 85.4, 85.1] } },
  "Front left door": { film: { centre: [118, 117, 118] }, gloss60: { a: [85.8, 85.5, 86] } },
  "Front right door": { film: { centre: [117, 117, 116] }, gloss60: { a: [85.2, 85.5, 85.3] } },
};
const flags = {
  "Washed, decontaminated and dry": "yes",
  "Edges, trim, badges and body lines taped": "yes",
  "In direct sun": "no",
  "An edge, body line or raised trim in the area": "no",
  "A sensor or camera behind the paint": "no",
  "Known to have been repainted": "no",
};
const scales = { film: /Film, all layers/, gloss20: /^Gloss at 20/, gloss60: /^Gloss at 60/ };

async function inspect(page, name, sheet) {
  await page.getByRole("link", { name: new RegExp(`^${name}: `) }).click();
  await page.getByRole("heading", { name, exact: true }).waitFor();
  await grade(page, "wash marks", 3);
  await pick(page, "What the paint is on", "steel");
  for (const [flag, yes] of Object.entries(flags)) await pick(page, flag, yes);
  for (const [scale, bySpot] of Object.entries(sheet)) {
    await page.getByRole("link", { name: scales[scale] }).click();
    await readings(page, bySpot);
    await page.getByRole("link", { name: "Done" }).click();
  }
  await page.getByRole("link", { name: "All panels" }).first().click();
}

async function trial(page, bySpot, left) {
  await pick(page, "Oils and fillers wiped away before reading", "yes");
  await page.getByRole("link", { name: scales.gloss60 }).click();
  await readings(page, bySpot.gloss60);
  await page.getByRole("link", { name: /^Gloss 20/ }).click();
  await readings(page, bySpot.gloss20);
  await page.getByRole("link", { name: "Done" }).click();
  const less = page.getByRole("button", { name: "Wash marks: 0.5 less" });
  const none = page.getByRole("button", { name: "Wash marks: none, 0" });
  await less.or(none).first().waitFor(); // the one or the other is there once the screen is
  if (await less.isVisible()) while (await less.isEnabled()) await less.click();
  else await none.click();
  for (let i = 0; i < left * 2; i++) await page.getByRole("button", { name: "Wash marks: 0.5 more" }).click();
  const trails = page.getByRole("button", { name: "Trails or haze that the step left: none, 0" });
  if (await trails.isVisible()) await trails.click();
  await pick(page, "How the residue came away", "clean");
  await page.getByRole("button", { name: "Record and judge" }).click();
}

test("a technician does the whole job on a phone", async () => {
  const { page, complaints, context } = await open(browser);
  await page.goto(service.url);
  await page.getByText("No job yet").waitFor();
  await newJob(page, service.url, "Invented dark estate");
  for (const [name, sheet] of Object.entries(panels)) await inspect(page, name, sheet);
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByRole("heading", { name: "Panel by panel" }).waitFor();
  await waitSent(page);
  await page
    .getByRole("link", { name: /^Test spot on/ })
    .first()
    .waitFor();
  await until(async () => (await page.locator(".advice").count()) === 4, "every panel has its advice");
  assert.match(await page.locator(".advice").first().innerText(), /polish/);

  await page
    .getByRole("link", { name: /^Test spot on/ })
    .first()
    .click();
  await pick(page, "Panel", "Bonnet");
  await page.getByRole("heading", { name: "The test spot" }).waitFor();
  await trial(page, { gloss60: { a: [88], b: [85.2] }, gloss20: { a: [78], b: [74] } }, 3);
  await page.locator(".verdict", { hasText: "repeat" }).waitFor();
  assert.match(await page.locator(".verdict").innerText(), /Change one thing: more readings/);

  await page.getByRole("heading", { name: "The next test spot" }).waitFor();
  await trial(
    page,
    { gloss60: { a: [88.2, 88.1], b: [88.4, 88.9], c: [87.6, 87.8, 87.9] }, gloss20: { a: [78.1, 78.2], b: [78.6, 78.9], c: [77.4, 77.8, 77.6] } },
    0.5,
  );
  await page.locator(".verdict", { hasText: "accept" }).waitFor();

  await page.getByRole("link", { name: "On to the work" }).click();
  await page.getByRole("button", { name: "Settle the plan" }).waitFor();
  await page.getByRole("heading", { name: "The whole vehicle" }).waitFor();
  assert.match(await page.locator(".sums .big").innerText(), /\d+\sh/);
  await page.getByRole("button", { name: "Settle the plan" }).click();
  const open_ = page.getByRole("button", { name: /^Tick off/ });
  await open_.first().waitFor();
  await open_.first().click();
  await page.getByRole("button", { name: "Undo" }).click(); // ticked by mistake, taken back, ticked again
  await page.getByText(/^Taken back/).waitFor();
  await waitSent(page);
  const card = page.getByRole("article", { name: "Bonnet" });
  await card.getByRole("button", { name: "Begin polish on bonnet" }).click();
  await card.getByText("under way").waitFor();
  await card.getByRole("link", { name: /^Readings while working/ }).click();
  await page.getByRole("link", { name: /^Gloss 20/ }).click();
  await readings(page, { a: [74, 74.2, 74.1], b: [73.6, 73.8, 73.7], c: [73.2, 73.3, 73.1] });
  await page.getByRole("link", { name: "Done" }).click();
  await card.getByRole("button", { name: "Record 9 readings" }).click();
  await page
    .getByText(/gloss at 20°$/)
    .first()
    .waitFor(); // how the work goes beside what the test spot promised
  const still = page.getByRole("region", { name: "Still to do" }).locator(".big");
  const atFirst = minutesOf(await still.innerText());
  while ((await open_.count()) > 0) {
    const count = await open_.count();
    await open_.first().click();
    await until(async () => (await open_.count()) < count, "the step is ticked off");
  }
  await waitSent(page);
  await until(async () => minutesOf(await still.innerText()) < atFirst / 3, "the last wipe is left");
  await page.getByLabel("What was left on purpose, and why").fill("Marks of grade 0.5 were left: more would cost film.");
  await page.getByRole("button", { name: "The work is finished" }).click();
  await page.getByLabel("Advice on care").fill("Wash with two buckets.");
  await page.getByRole("button", { name: "Handed over" }).click();
  await page.getByRole("heading", { name: "Hand over" }).waitFor({ state: "detached" });
  await waitSent(page);

  await page.getByRole("link", { name: "Record", exact: true }).click();
  await page.getByText("Marks of grade 0.5 were left").waitFor();
  await until(async () => (await page.locator(".panel-record").count()) === 4, "every panel is in the record");
  assert.match(await page.locator(".paper").innerText(), /handed over/);
  if (shots) await page.pdf({ path: `${shots}/record.pdf`, format: "A4" });
  assert.deepEqual(complaints, []);
  await context.close();

  const { jobs } = await service.call("JobService", "ListJobs", {});
  assert.equal((await fetch(`${service.url}/reports/${jobs[0].name.slice("jobs/".length)}`)).status, 200, "the full record that the page leads to");
  assert.equal(jobs.length, 1);
  assert.equal(jobs[0].stage, "JOB_STAGE_HANDED_OVER");
  const { events } = await service.call("JobService", "ListJobEvents", { parent: jobs[0].name, page_size: 1000 });
  const inspections = events.filter((e) => e.inspection);
  assert.equal(inspections.length, 1);
  const bonnet = inspections[0].inspection.panels.find((p) => p.id === "bonnet");
  assert.deepEqual(bonnet.film.find((s) => s.spot === "centre").total_um, panels.Bonnet.film.centre);
  assert.deepEqual(bonnet.gloss.find((s) => s.spot === "b").at20_gu, panels.Bonnet.gloss20.b);
  assert.equal(events.filter((e) => e.trial).length, 2);
  const during = events.filter((e) => e.readings);
  assert.deepEqual(
    during.map((e) => [e.readings.time, e.readings.step]),
    [["READINGS_TIME_DURING", "STEP_POLISH"]],
  );
});

test("what is wrong with a new job is told at its field, and nothing is begun", async () => {
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/new`);
  const begin = page.getByRole("button", { name: "Begin the inspection" });
  const name = page.getByRole("textbox", { name: "Name of the vehicle" });
  const year = page.getByRole("textbox", { name: "Year it was built" });
  const says = async (field) => page.locator(`[id="${await field.getAttribute("aria-describedby")}"]`).innerText();
  const built = async () => {
    const { vehicles = [] } = await service.call("JobService", "ListVehicles", {});
    return vehicles.filter((v) => v.label === "green estate").map((v) => v.built_year);
  };

  await begin.click();
  await page.locator("[aria-invalid=true]").waitFor();
  assert.equal(await name.getAttribute("aria-invalid"), "true");
  assert.match(await says(name), /Give the vehicle a name/);

  await name.fill("green estate");
  assert.equal(await name.getAttribute("aria-invalid"), "false");
  await year.fill("1700");
  await begin.click();
  await until(async () => (await says(year)) === "A number from 1885 to 2200.", "for the years that are taken");
  assert.equal(await year.getAttribute("aria-invalid"), "true");
  assert.equal(await year.inputValue(), "1700", "what was typed is still there");
  assert.match(page.url(), /#\/new$/);
  assert.deepEqual(await built(), []);

  await year.fill("2017");
  await begin.click();
  await page.getByRole("heading", { name: "Panels" }).waitFor();
  await until(async () => (await built()).length > 0, "for the vehicle's record");
  assert.deepEqual(await built(), [2017]);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a vehicle comes back to a shop that has more of them than come in one answer", async (t) => {
  const large = await serve();
  t.after(() => large.stop());
  for (let n = 0; n < 1_050; n += 50)
    await Promise.all(
      Array.from({ length: 50 }, (_, i) =>
        large.call("JobService", "CreateVehicle", { vehicle: { label: `Invented ${n + i + 1_000}` }, vehicle_id: `v-${n + i}` }),
      ),
    );
  const { page, complaints, context } = await open(browser);
  await page.goto(`${large.url}/#/new`);
  const vehicle = page.getByRole("combobox", { name: "Vehicle" });
  await vehicle.selectOption("Invented 2049");
  await page.getByRole("button", { name: "Begin the inspection" }).click();
  await page.getByRole("heading", { name: "Invented 2049" }).waitFor();
  await waitSent(page);
  const { jobs } = await large.call("JobService", "ListJobs", {});
  assert.deepEqual(
    jobs.map((j) => [j.vehicle, j.vehicle_label]),
    [["vehicles/v-1049", "Invented 2049"]],
  );
  assert.deepEqual(complaints, []);
  await context.close();
});
