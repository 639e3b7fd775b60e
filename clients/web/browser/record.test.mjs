// The record on the page says of every panel what became of it, and gives no reason for what was not done.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve } from "./house.mjs";
import { asked, inspected } from "./recorded.mjs";
import { fill } from "./shop.mjs";

let service, browser;
before(async () => {
  service = await serve();
  await fill(service);
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

// panelsOf gives the lines of each panel in the record of a job: what each line is called, and what it says.
async function panelsOf(job) {
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/${job}/record`);
  await page.getByRole("heading", { name: "Front right door" }).waitFor();
  const panels = await page
    .locator(".panel-record")
    .evaluateAll((sections) =>
      sections.map((section) => [
        section.querySelector("h3").textContent,
        Object.fromEntries(
          [...section.querySelectorAll("dl > div")].map((d) => [d.children[0].textContent, [...d.children].slice(1).map((s) => s.textContent)]),
        ),
      ]),
    );
  assert.deepEqual(complaints, []);
  await context.close();
  return Object.fromEntries(panels);
}

test("a finished job tells what was worked, what was left out and what was not worked", async () => {
  const { Bonnet, Roof, "Front left door": door } = await panelsOf("finished");
  assert.deepEqual(Bonnet["Work done"], ["Polish"]);
  assert.match(Bonnet.Advised[0], /cut.*polish.*finish/);
  assert.equal(Bonnet.Why, undefined, "the reason for a cut is none for a polish");
  assert.deepEqual(Roof["Work done"], ["Polish"]);
  assert.match(Roof.Why[0], /need a polish/);
  assert.equal(Roof.Advised, undefined, "what was planned is what was advised");
  assert.deepEqual(Roof.Left, ["Finish was left out: The gloss was there."]);
  assert.deepEqual(door["Work done"], ["not worked by machine"]);
  assert.equal(door.Ladder, undefined);
});

test("a job in work tells what is still to come, and what is not in the plan", async () => {
  const { Bonnet, Roof, "Front left door": door } = await panelsOf("planned");
  assert.deepEqual(Bonnet["Work done"], ["planned: polish"]);
  assert.deepEqual(Roof["Work done"], ["Polish; not finished yet"]);
  assert.deepEqual(door["Work done"], ["not in the plan"]);
});

test("a job without a plan plans nothing", async () => {
  const { Bonnet } = await panelsOf("inspected");
  assert.deepEqual(Bonnet["Work done"], ["nothing yet"]);
  assert.match(Bonnet.Why[0], /need a cut/);
});

test("a ladder that a test spot has proven is told with its reason before there is a plan", async () => {
  const name = await inspected(service, "proven");
  const trial = {
    step: "STEP_POLISH",
    after: [{ spot: "a", at60_gu: [88.2, 88.4, 88.3] }],
    left: [{ kind: "DEFECT_KIND_WASH_MARKS", severity: 0.5 }],
    trails_left: 0,
    wipe_off: "WIPE_OFF_CLEAN",
    panel_c: 28,
    panel_wiped: true,
    pad_loaded: false,
    color_transfer: false,
  };
  const { job } = await asked(service, "JobService", "RecordTrial", { name, trial: { panel_id: "roof", trial } });
  const { verdict } = job.panels.find((p) => p.panel_id === "roof");
  assert.equal(verdict.proven, true);
  const { Roof } = await panelsOf("proven");
  assert.match(Roof.Ladder[0], /polish proven on 1 test spot/);
  assert.match(Roof.Advised[0], /polish.*finish/);
  assert.deepEqual(Roof.Why, [verdict.reason.because]);
  assert.deepEqual(Roof["Work done"], ["nothing yet"]);
});
