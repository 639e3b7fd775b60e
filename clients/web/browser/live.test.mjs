// A job that another device works on is seen to go on.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, settled, until } from "./house.mjs";
import { asked, inspected } from "./recorded.mjs";
import { waitSent } from "./walk.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

test("what another device records is seen without a reload", async () => {
  const name = await inspected(service, "live");
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH_FINISH" }] } });
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/live/work`);
  const roof = page.getByRole("article", { name: "Roof" });
  await roof.getByRole("button", { name: "Tick off polish on roof" }).waitFor();
  const tick = (step) => asked(service, "JobService", "RecordProgress", { name, progress: [{ panel_id: "roof", step, state: "STEP_STATE_DONE" }] });
  await tick("STEP_POLISH");
  await roof.getByText("Polish done").waitFor();
  await tick("STEP_FINISH");
  await roof.getByText("Finish done").waitFor();
  await asked(service, "JobService", "FinishJob", { name });
  await page.getByRole("heading", { name: "Hand over" }).waitFor();
  await page.locator(".heading.job", { hasText: "finished" }).waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});

test("an answer that comes late does not take back what was recorded meanwhile", async () => {
  const name = await inspected(service, "late");
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH_FINISH" }] } });
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/late/work`);
  const roof = page.getByRole("article", { name: "Roof" });
  await roof.getByRole("button", { name: "Tick off polish on roof" }).waitFor();
  await settled(page);
  // Another device begins a step; the answer to what this page asks then is held back, and no other one.
  let at = "not asked";
  let letGo;
  const free = new Promise((then) => (letGo = then));
  const hold = async (route) => {
    const response = await route.fetch();
    at = "held";
    await free;
    await route.fulfill({ response });
    at = "given";
  };
  await page.route(/GetJob/, hold, { times: 1 });
  await asked(service, "JobService", "RecordProgress", { name, progress: [{ panel_id: "roof", step: "STEP_POLISH", state: "STEP_STATE_UNDER_WAY" }] });
  await until(() => at === "held", "the page asks how the job stands");
  await roof.getByRole("button", { name: "Tick off polish on roof" }).click();
  await waitSent(page);
  await roof.getByText("Polish done").waitFor();
  letGo();
  await until(() => at === "given", "the answer comes");
  await page.evaluate(() => new Promise((then) => setTimeout(then, 300))); // time enough to draw it
  assert.equal(await roof.getByText("Polish done").count(), 1);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a tick that is taken back while it is about to be sent is not recorded", async () => {
  const name = await inspected(service, "undone");
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH_FINISH" }] } });
  const { page, complaints, context } = await open(browser);
  // A slow device: it takes a while to look through what waits.
  await page.addInitScript(() => {
    const { getAll } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.getAll = function (...of) {
      const end = performance.now() + 800;
      const hold = () => {
        if (performance.now() < end) this.count().onsuccess = hold; // as long as something is asked, it is not over
      };
      if (this.name === "waiting") hold();
      return getAll.apply(this, of);
    };
  });
  await page.goto(`${service.url}/#/job/undone/work`);
  await page.getByRole("button", { name: "Tick off polish on roof" }).click();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("Taken back: polish on roof").waitFor();
  await waitSent(page);
  const job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "roof").steps[0].state, "STEP_STATE_OPEN");
  await page.getByRole("button", { name: "Tick off polish on roof" }).waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a tick that one window is sending while another takes it back ends taken back", async () => {
  const name = await inspected(service, "windows");
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH_FINISH" }] } });
  const { page: one, complaints, context } = await open(browser);
  // The service has recorded it, and its answer is still on the way.
  let at = "not sent";
  let letGo;
  const free = new Promise((then) => (letGo = then));
  await one.route(
    /RecordProgress/,
    async (route) => {
      const response = await route.fetch();
      at = "recorded";
      await free;
      await route.fulfill({ response });
    },
    { times: 1 },
  );
  await one.goto(`${service.url}/#/job/windows/work`);
  await one.getByRole("button", { name: "Tick off polish on roof" }).click();
  await until(() => at === "recorded", "the tick is recorded");
  const other = await context.newPage();
  await other.goto(`${service.url}/#/job/windows/work`);
  await other.getByRole("button", { name: "Take back: polish on roof" }).click();
  await other.evaluate(() => new Promise((then) => setTimeout(then, 300))); // time enough to take it back too early
  letGo();
  await other.getByText("Taken back: polish on roof").waitFor();
  await waitSent(other);
  const job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "roof").steps[0].state, "STEP_STATE_OPEN");
  await one.getByRole("button", { name: "Tick off polish on roof" }).waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});
