// The plan on a phone: hours and price with their sources, measured areas, what fits the hours, and taking it as the plan.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, until } from "./house.mjs";
import { look } from "./look.mjs";
import { asked, inspected, inspection } from "./recorded.mjs";
import { minutesOf, pick, waitSent } from "./walk.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

test("the plan tells hours and price, each figure with its source, and takes a measured area and the crew", async () => {
  const name = await inspected(service, "plan-1");
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/plan-1/plan`);
  await page.getByRole("heading", { name: "Hours", exact: true }).waitFor();
  const { plan } = await asked(service, "PlanService", "PlanJob", { inspection });
  const hours = await page.getByRole("region", { name: "Hours" }).locator(".big").innerText();
  assert.match(hours, /^\d+\sh(\s\d+\smin)? \(\d+\sh(\s\d+\smin)? to \d+\sh(\s\d+\smin)?\)$/);
  assert.equal(Math.round(plan.work_min.likely), minutesOf(hours.split(" (")[0]), "the hours are the service's");
  const price = await page.getByRole("region", { name: "Price" }).locator(".big").innerText();
  const euros = (m) => new Intl.NumberFormat("en-GB", { style: "currency", currency: "EUR" }).format(`${m.units}.${String(m.nanos).padStart(9, "0")}`);
  assert.equal(price, `${euros(plan.cost.total.likely)} (${euros(plan.cost.total.low)} to ${euros(plan.cost.total.high)})`);

  const line = page.locator("details.sourced", { hasText: "Polish: machine running" });
  await line.locator("summary").click();
  const rule = plan.sources.find((s) => s.reason?.table === "effort" && s.reason.rule_id === "polish").reason;
  await line.getByText(rule.because).waitFor();
  assert.match(await line.innerText(), /Rule effort\/polish, effort\.yaml:\d+/);
  const pad = page.locator("details.sourced", { hasText: "polishing-foam-large" });
  await pad.locator("summary").click();
  await pad.getByText(/^Catalogue: a pad lasts/).waitFor();

  const day = page.getByRole("region", { name: "One person’s day with the machine" });
  assert.ok(plan.exposure.cautions.length > 0);
  for (const caution of plan.exposure.cautions) await day.getByText(caution).waitFor();
  await day
    .getByText(/m\/s² over the day/)
    .first()
    .waitFor();
  await look(page, "plan-full");

  const bonnet = page.locator(".panel-plan", { hasText: "Bonnet" });
  await bonnet.locator("summary").click();
  const area = page.getByLabel("Measured area of Bonnet");
  await area.fill("0");
  await area.press("Enter");
  await page.getByText("A number from 0.01 to 60.").waitFor();
  await area.fill("1,9");
  await area.press("Enter");
  await bonnet.getByText("1.9 m²", { exact: true }).waitFor();
  await bonnet.getByText("Measured by the shop.").waitFor();
  await page.getByLabel("Hours a day").fill("2");
  await page.getByLabel("Hours a day").press("Enter");
  await page.getByText(/That makes ([2-9]|\d\d) working days/).waitFor();
  await page.reload();
  await bonnet.locator("summary").click();
  assert.equal(await page.getByLabel("Measured area of Bonnet").inputValue(), "1.9", "the area is kept on the device");
  assert.deepEqual(complaints, []);
  assert.equal((await asked(service, "JobService", "GetJob", { name })).stage, "JOB_STAGE_INSPECTED");
  await context.close();
});

// questions keeps what the page asks of one method, the latest last.
function questions(page, method = "PlanService/PlanJob") {
  const all = [];
  page.on("request", (r) => r.url().endsWith(method) && all.push(r.postDataJSON()));
  return all;
}

test("areas and the crew go on record with the plan, are seen there by other devices, and the plan is asked by the job’s name", async () => {
  const name = await inspected(service, "measured-1");
  const { page, complaints, context } = await open(browser, { allow: [/ERR_INTERNET_DISCONNECTED/] });
  const [jobs, sent] = [questions(page, "JobService/GetJob"), questions(page)];
  await page.goto(`${service.url}/#/job/measured-1/plan`);
  const bonnet = page.locator(".panel-plan", { hasText: "Bonnet" });
  await bonnet.locator("summary").click();
  assert.deepEqual([jobs, sent], [[{ name, with_work_plan: true }], []], "a job that is opened at its plan brings it");
  const area = page.getByLabel("Measured area of Bonnet");
  await area.fill("1.9");
  await area.press("Enter");
  await bonnet.getByText("Not on record yet.").waitFor();
  await page.getByText("Areas and who works go on record when the plan is settled.").waitFor();
  await bonnet.getByText("Measured by the shop.").waitFor();
  assert.deepEqual(sent.at(-1), { job: name, areas: [{ panel_id: "bonnet", area_m2: 1.9 }] });

  await page.goto(`${service.url}/#/job/measured-1/work`);
  await page.getByRole("button", { name: "Settle the plan" }).click();
  await waitSent(page);
  let job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.stage, "JOB_STAGE_PLANNED");
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").area_m2, 1.9);
  await page.goto(`${service.url}/#/job/measured-1/plan`);
  await bonnet.locator("summary").click();
  await bonnet.getByText("On record.").waitFor();
  await until(() => JSON.stringify(sent.at(-1)) === JSON.stringify({ job: name }), "what is on record is not said anew");
  let before;
  page.on("request", (r) => {
    if (r.isNavigationRequest()) before = sent.length;
  });
  const seen = jobs.length;
  await page.reload();
  await page.getByText("What they are made of").waitFor();
  assert.deepEqual([jobs.slice(seen), sent.slice(before)], [[{ name, with_work_plan: true }], []], "the plan comes with the job");
  await page.goto(`${service.url}/#/job/measured-1/record`);
  await page.getByRole("heading", { name: "Record of the work" }).waitFor();
  await page.goto(`${service.url}/#/job/measured-1/plan`);
  await until(() => sent.length > before, "whoever comes back to the plan asks anew, for the rules may be others by now");
  assert.deepEqual(sent.slice(before), [{ job: name }]);
  await bonnet.locator("summary").click();

  // Later, without a network: the crew, and another area. They wait, and the plan stays as it is.
  await context.setOffline(true);
  await page.getByLabel("People").fill("2");
  await page.getByLabel("People").press("Enter");
  await page.getByText("Not on record yet; plans and bookings reckon with it all the same.").waitFor();
  await area.fill("2");
  await area.press("Enter");
  await bonnet.getByText("Not on record yet; there it is 1.9 m².").waitFor();
  await page.getByRole("button", { name: "Record what was measured and who works" }).click();
  await page.getByText("The plan waits on this device").waitFor();
  await look(page, "plan-measured-waits");
  await context.setOffline(false);
  await waitSent(page);
  const ladders = Object.fromEntries(job.panels.map((p) => [p.panel_id, p.ladder]));
  job = await asked(service, "JobService", "GetJob", { name });
  assert.deepEqual(job.crew, { people: 2 });
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").area_m2, 2);
  assert.deepEqual(Object.fromEntries(job.panels.map((p) => [p.panel_id, p.ladder])), ladders, "the ladders are as they were");

  const other = await open(browser);
  await other.page.goto(`${service.url}/#/job/measured-1/plan`);
  await other.page.locator(".panel-plan", { hasText: "Bonnet" }).locator("summary").click();
  assert.equal(await other.page.getByLabel("Measured area of Bonnet").inputValue(), "2");
  assert.equal(await other.page.getByLabel("People").inputValue(), "2");
  await look(other.page, "plan-measured");
  await other.page.getByLabel("Measured area of Bonnet").fill("");
  await other.page.getByLabel("Measured area of Bonnet").press("Enter");
  await other.page.getByRole("button", { name: "Record what was measured and who works" }).click();
  await waitSent(other.page);
  job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.panels.find((p) => p.panel_id === "bonnet").area_m2, undefined, "it is measured no more");
  assert.deepEqual(job.crew, { people: 2 });
  await page.reload();
  await bonnet.locator("summary").click();
  await until(async () => (await area.inputValue()) === "", "the first device goes by the record");
  assert.deepEqual([...complaints, ...other.complaints], []);
  await context.close();
  await other.context.close();
});

test("fewer hours than the full plan: the best use is shown with what it leaves out, and taken as the plan", async () => {
  const name = await inspected(service, "fit-1");
  const full = await asked(service, "PlanService", "FitHours", { inspection, hours: 100 });
  const hours = Math.floor(full.full_work_min / 2 / 6) / 10;
  const half = await asked(service, "PlanService", "FitHours", { inspection, hours });
  assert.ok(
    half.panels.some((p) => p.ladder !== p.full),
    "half the hours leave something out",
  );
  const { page, complaints, context } = await open(browser);
  await page.goto(`${service.url}/#/job/fit-1/plan`);
  await page.getByRole("link", { name: "What fits the hours" }).click();
  const entry = page.getByLabel("Hours for the whole job");
  await entry.fill("0");
  await entry.press("Enter");
  await page.getByText("A number from 0.1 to 100.").waitFor();
  await entry.fill(String(hours));
  await entry.press("Enter");
  const outcome = page.locator(".sums");
  await outcome.getByText(`${Math.round(half.result_pct)} % of the full result`).waitFor();
  assert.match(await outcome.innerText(), /takes .* instead of .*; costs €.* instead of €/);
  for (const p of half.panels.filter((x) => x.leaves)) await page.getByText(p.leaves.slice(1)).first().waitFor();
  const drawing = page.getByRole("img", { name: /^Result against hours/ });
  assert.match(await drawing.locator("desc").textContent(), new RegExp(`Chosen: .* ${Math.round(half.result_pct)} % of the full result`));
  assert.equal(await drawing.locator("path.dot").count(), 1, "the diamond of the plan");
  await page.getByText("The curve as a table").click();
  assert.equal(await page.getByRole("region", { name: "The curve as a table" }).locator("tbody tr").count(), half.curve.length);
  await look(page, "fit");

  const slider = page.getByLabel("Another point of the curve");
  await slider.focus();
  await page.keyboard.press("End");
  await outcome.getByText("100 % of the full result").waitFor();
  await outcome.getByText(/everything fits/).waitFor();
  await page.keyboard.press("ArrowLeft");
  await until(async () => !/100 % of/.test(await outcome.innerText()), "one point further down the curve");
  const last = full.curve.at(-2);
  assert.match(await slider.getAttribute("aria-valuetext"), new RegExp(`${Math.round(last.result_pct)} % of the full result`));

  await pick(page, "What is fixed", "a price");
  const price = page.getByLabel("Price for the whole job");
  await price.fill("ten");
  await price.press("Enter");
  await page.getByText("Digits, and at most two after a point or a comma.").waitFor();
  const likely = half.plan.cost.total.likely;
  await price.fill(`${likely.units},${String(likely.nanos).padStart(9, "0").slice(0, 2)}`);
  await price.press("Enter");
  await outcome.getByText(/^The best use of €/).waitFor();
  const byPrice = await asked(service, "PlanService", "FitHours", { inspection, price: likely });
  await outcome.getByText(`${Math.round(byPrice.result_pct)} % of the full result`).waitFor();

  await page.getByRole("button", { name: "Take this as the plan" }).click();
  await page.getByRole("heading", { name: "The whole vehicle" }).waitFor();
  await waitSent(page);
  const job = await asked(service, "JobService", "GetJob", { name });
  assert.equal(job.stage, "JOB_STAGE_PLANNED");
  assert.deepEqual(Object.fromEntries(job.panels.map((p) => [p.panel_id, p.ladder])), Object.fromEntries(byPrice.panels.map((p) => [p.panel_id, p.ladder])));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the plan and its best use are reached and worked by keyboard alone", async () => {
  await inspected(service, "keys-1");
  const { page, complaints, context } = await open(browser, { viewport: { width: 1440, height: 900 } });
  await page.goto(`${service.url}/#/job/keys-1/plan`);
  await page.getByRole("heading", { name: "Hours", exact: true }).waitFor();
  await reach(page, /Test spots/);
  await page.keyboard.press("Enter");
  await page
    .locator("details.sourced[open]")
    .getByText(/Rule visit\//)
    .waitFor();
  await page.keyboard.press("Home");
  await page.locator("main").focus();
  await reach(page, /^What fits the hours$/);
  await page.keyboard.press("Enter");
  await page.locator(".sums").waitFor();
  await reach(page, /^Hours for the whole job/);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("2");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "The best use of 2 h" }).waitFor();
  await reach(page, /^Another point of the curve/);
  await page.keyboard.press("End");
  await page.locator(".sums", { hasText: "100 % of the full result" }).waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});

// reach tabs forward until something of that name has the focus, and holds that it can be seen to have it.
async function reach(page, name) {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const e = document.activeElement;
      const s = getComputedStyle(e);
      return { name: (e.labels?.[0]?.textContent ?? e.textContent ?? "").trim(), shown: s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 };
    });
    if (!name.test(at.name) || at.name.length > 200) continue;
    assert.ok(at.shown, `the focus on "${at.name}" cannot be seen`);
    return;
  }
  throw new Error(`Tab never comes to ${name}`);
}
