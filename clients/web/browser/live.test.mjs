// A job that another device works on is seen to go on.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve } from "./house.mjs";
import { asked, inspected } from "./recorded.mjs";

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
