// Corrections on a phone: an inspection, readings and progress are corrected with why, a test spot is taken back, and what was
// recorded first stays to be seen.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, settled } from "./house.mjs";
import { look } from "./look.mjs";
import { asked, inspected, inspection } from "./recorded.mjs";
import { pick, type, waitSent } from "./walk.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const eventsOf = async (name) => (await asked(service, "JobService", "ListJobEvents", { parent: name, page_size: 1000 })).events;
const correctionOf = (events, sequence) => events.findLast((e) => e.correction?.sequence === String(sequence))?.correction;

test("an inspection is corrected without a network, and shows what it was", async () => {
  const name = await inspected(service, "correct-1");
  const { page, complaints, context } = await open(browser, { allow: [/ERR_INTERNET_DISCONNECTED/] });
  await page.goto(`${service.url}/#/job/correct-1/events`);
  const found = (await eventsOf(name)).find((e) => e.inspection);
  const card = page.locator(`#event-${found.sequence}`);
  await card.getByRole("button", { name: /^Correct event/ }).waitFor();
  await settled(page);
  await context.setOffline(true);
  await card.getByRole("button", { name: /^Correct event/ }).click();
  await page.getByText("Nothing differs yet.").waitFor();
  await page.getByRole("link", { name: /^Bonnet/ }).click();
  const less = page.getByRole("button", { name: "Wash marks: 0.5 less" });
  for (let i = 0; i < 4; i++) await less.click();
  await page.getByRole("link", { name: /Film, all layers/ }).click();
  await page.getByRole("radio", { name: /front · / }).check();
  for (const value of [131, 132, 131]) {
    await type(page, value);
    await page.getByRole("button", { name: "Take", exact: true }).click();
  }
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  const marks = page.locator(".changes li", { hasText: "Bonnet, wash marks" });
  assert.equal(await marks.locator("del").innerText(), "4 of 5");
  assert.equal(await marks.locator("ins").innerText(), "2 of 5");
  const send = page.getByRole("button", { name: "Record the correction" });
  assert.ok(await send.isDisabled(), "without a reason");
  await page.getByLabel("Why it was wrong").fill("Read from the wrong line.");
  await look(page, "correcting");
  await page.reload();
  await page.getByText("Read from the wrong line.").or(page.getByLabel("Why it was wrong")).first().waitFor();
  assert.equal(await page.getByLabel("Why it was wrong").inputValue(), "Read from the wrong line.", "a correction outlives a reload");
  await send.click();
  await page.getByText("A correction of it waits to be sent").waitFor();
  await context.setOffline(false);
  await waitSent(page);
  await card.getByText("Corrected", { exact: true }).waitFor();
  await card.getByText("Why: Read from the wrong line.").waitFor();
  assert.equal(await card.locator(".changes li", { hasText: "wash marks" }).locator("del").innerText(), "4 of 5");
  await card.getByText("What it was").click();
  await look(page, "events-corrected");

  const events = await eventsOf(name);
  assert.equal(events.find((e) => e.sequence === found.sequence).inspection.panels[0].defects[0].severity, 4, "what was recorded first stays");
  const instead = correctionOf(events, found.sequence).inspection.panels;
  assert.equal(instead.length, inspection.panels.length);
  assert.deepEqual(instead[0].film.find((s) => s.spot === "front").total_um, [131, 132, 131]);
  const job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").found.defects[0].severity, 2);
  await page.getByRole("link", { name: "Inspect", exact: true }).click();
  await page.getByText("On record", { exact: true }).waitFor(); // the sheet of the job has taken it over: nothing is left to record
  await page.getByRole("link", { name: /^Bonnet: / }).click();
  await page.getByText("2 of 5").waitFor();
  await page.goto(service.url);
  await page.getByRole("heading", { name: "Jobs" }).waitFor();
  assert.equal(await page.getByText("only on this device").count(), 0, "a correction is no job of its own");
  assert.deepEqual(complaints, []);
  await context.close();
});

// worked puts a plan and work on record.
async function worked(name) {
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH" }] } });
  await asked(service, "JobService", "RecordProgress", {
    name,
    progress: [{ panel_id: "roof", step: "STEP_POLISH", state: "STEP_STATE_DONE", minutes: 300 }],
  });
  await asked(service, "JobService", "RecordReadings", {
    name,
    readings: [{ panel_id: "roof", time: "READINGS_TIME_AFTER", step: "STEP_POLISH", gloss: [{ spot: "a", at60_gu: [89, 8.9, 89.2] }] }],
  });
}

test("progress and readings are corrected, and what later events rest on is not taken back", async () => {
  const name = await inspected(service, "correct-2");
  await worked(name);
  const { page, complaints, context } = await open(browser, { allow: [/status of 400/] });
  await page.goto(`${service.url}/#/job/correct-2/events`);
  const before = await eventsOf(name);
  const at = (what) => before.findLast((e) => e[what]).sequence;
  const card = (sequence) => page.locator(`#event-${sequence}`);

  await card(at("progress"))
    .getByRole("button", { name: /^Correct event/ })
    .click();
  await page.getByLabel("Minutes worked").fill("2000");
  await page.getByLabel("Minutes worked").press("Tab");
  await page.getByText("A number from 0 to 1440.").waitFor();
  await page.getByLabel("Minutes worked").fill("30");
  await page.getByLabel("Minutes worked").press("Tab");
  await page.getByLabel("Why it was wrong").fill("A nought too many.");
  await page.getByRole("button", { name: "Record the correction" }).click();
  await card(at("progress")).getByText("Why: A nought too many.").waitFor();
  await waitSent(page);

  await card(at("readings"))
    .getByRole("button", { name: /^Correct event/ })
    .click();
  await page.getByRole("link", { name: /^Gloss at 60°/ }).click();
  await page.getByRole("button", { name: "Remove 8.9" }).click(); // a tap on a reading takes it out
  await type(page, 88.9);
  await page.getByRole("button", { name: "Take", exact: true }).click();
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByLabel("Why it was wrong").fill("The point was in the wrong place.");
  await page.getByRole("button", { name: "Record the correction" }).click();
  await card(at("readings")).getByText("Why: The point was in the wrong place.").waitFor();
  await waitSent(page);

  await card(at("inspection"))
    .getByRole("button", { name: /^Take back event/ })
    .click();
  await card(at("inspection")).getByLabel("Why it is taken back").fill("Another vehicle.");
  await card(at("inspection")).getByRole("button", { name: "Take it back" }).click();
  await card(at("inspection")).locator(".trouble").waitFor();

  const events = await eventsOf(name);
  assert.equal(correctionOf(events, at("progress")).progress.minutes, 30);
  assert.deepEqual(correctionOf(events, at("readings")).readings.gloss[0].at60_gu.toSorted(), [88.9, 89, 89.2]);
  assert.equal(correctionOf(events, at("inspection")), undefined, "a refused correction is not on record, and does not block the job");
  assert.equal(await page.locator(".reach a").count(), 0);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a test spot is corrected and then taken back, and a cancelled job comes back to life", async () => {
  const name = await inspected(service, "correct-3");
  const trial = {
    step: "STEP_POLISH",
    panel_wiped: true,
    after: [{ spot: "a", at60_gu: [88, 88.2, 88.1] }],
    left: [{ kind: "DEFECT_KIND_WASH_MARKS", severity: 0.5 }],
  };
  await asked(service, "JobService", "RecordTrial", { name, trial: { panel_id: "bonnet", trial } });
  await asked(service, "JobService", "CancelJob", { name, closing: { note: "by mistake" } });
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/correct-3/events`);
  const events = await eventsOf(name);
  const tried = events.find((e) => e.trial).sequence;
  const cancelled = events.find((e) => e.cancelled).sequence;
  const card = (sequence) => page.locator(`#event-${sequence}`);
  await page.getByText("This job was cancelled").waitFor();
  await card(cancelled)
    .getByRole("button", { name: /^Take back event/ })
    .click();
  await card(cancelled).getByLabel("Why it is taken back").fill("The wrong job.");
  await card(cancelled).getByRole("button", { name: "Take it back" }).click();
  await page.getByText("This job was cancelled").waitFor({ state: "detached" });

  await card(tried)
    .getByRole("button", { name: /^Correct event/ })
    .click();
  await page.getByRole("button", { name: "Wash marks: 0.5 more" }).click();
  await pick(page, "How the residue came away", "clean");
  await page.getByLabel("Why it was wrong").fill("Looked again.");
  await page.getByRole("button", { name: "Record the correction" }).click();
  await card(tried).getByText("Corrected", { exact: true }).waitFor();
  await waitSent(page);
  let job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").trials[0].left[0].severity, 1);
  assert.equal(job.stage, "JOB_STAGE_TRIAL");

  await card(tried)
    .getByRole("button", { name: /^Take back event/ })
    .click();
  await card(tried).getByLabel("Why it is taken back").fill("It was another panel.");
  await card(tried).getByRole("button", { name: "Take it back" }).click();
  await card(tried).getByText("Taken back", { exact: true }).waitFor();
  await waitSent(page);
  job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").trials.length, 0);
  assert.equal(job.stage, "JOB_STAGE_INSPECTED");
  assert.deepEqual(complaints, []);
  await context.close();
});
