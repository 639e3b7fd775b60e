// Bay time on a phone: book, move, give back; and a job that is edited, cancelled and found again in the list.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, settled, until } from "./house.mjs";
import { look } from "./look.mjs";
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

const getJob = (name) => asked(service, "JobService", "GetJob", { name });
const refusal = [/status of 400/]; // the test brings one about, and Chromium tells of it

// A Monday far enough ahead to lie in the opening hours of the shipped catalogue, whatever the day of the test.
function monday() {
  const d = new Date();
  d.setUTCDate(d.getUTCDate() + 60);
  while (d.getUTCDay() !== 1 || (d.getUTCMonth() === 11 && d.getUTCDate() > 20)) d.setUTCDate(d.getUTCDate() + 1);
  return d.toISOString().slice(0, 10);
}

test("bay time is booked, moved and given back, and calendars follow", async () => {
  const name = await inspected(service, "bay-job");
  const { page, complaints, context } = await open(browser, { allow: [...refusal, /ERR_INTERNET_DISCONNECTED/] });
  await page.goto(`${service.url}/#/job/bay-job/bay`);
  await page.getByText("No bay time is booked.").waitFor();
  await page.getByRole("button", { name: "Book the bay" }).click();
  await page.getByText("Name the bay, such as bay-1.").waitFor();
  await page.getByText("Say when the vehicle is there.").waitFor();
  await page.getByLabel("Bay", { exact: true }).fill("Bay 2");
  await page.getByLabel("The vehicle is there from").fill(`${monday()}T09:00`);
  await page.getByRole("button", { name: "Book the bay" }).click();
  await page.getByText(/a bay is named by small letters/).waitFor();
  assert.equal(await page.getByLabel("Bay", { exact: true }).getAttribute("aria-invalid"), "true");
  assert.equal(await page.locator(".trouble").count(), 0, "the fault stands at its field alone");

  await page.getByLabel("Bay", { exact: true }).fill("bay-2");
  await page.getByRole("button", { name: "Book the bay" }).click();
  const booked = page.getByRole("region", { name: "Booked in bay-2" });
  await booked.waitFor();
  let job = await getJob(name);
  assert.equal(job.bay.bay, "bay-2");
  assert.equal(await booked.locator("li").count(), job.bay.blocks.length);
  await page.getByText(/stretch(es)? booked ahead in bay-2/).click();
  await page.getByText("(this job)").first().waitFor();

  const first = job.bay.blocks[0];
  await booked.getByRole("button", { name: /^Move/ }).first().click();
  await booked.getByLabel("To").fill(`${monday()}T06:00`);
  await booked.getByRole("button", { name: "Book it so" }).click();
  await page.getByText("The end has to be after the start.").waitFor();
  await booked.getByLabel("To").fill(`${monday()}T23:00`); // into the blocks after it
  await booked.getByRole("button", { name: "Book it so" }).click();
  await page.getByText(/is before the end of the block before/).waitFor();
  assert.equal(await booked.getByLabel("To").getAttribute("aria-invalid"), "true", "the service's refusal stands at the field");
  await look(page, "bay-moving");
  await booked.getByLabel("To").fill(first.end_time.slice(0, 16));
  await booked.getByLabel("From").fill(`${monday()}T07:00`);
  await booked.getByRole("button", { name: "Book it so" }).click();
  await page.getByText("Moved.").waitFor();
  job = await getJob(name);
  const length = (b) => new Date(b.end_time) - new Date(b.start_time);
  assert.equal(length(job.bay.blocks[0]), length(first), "a block that moves keeps its length");
  assert.notEqual(job.bay.blocks[0].start_time, first.start_time);

  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: "Download this job’s calendar file" }).click()]);
  assert.equal(file.suggestedFilename(), "bay-job.ics");
  const ics = await (await fetch(`${service.url}/calendar/jobs/bay-job.ics`)).text();
  assert.match(ics, new RegExp(`DTSTART:${job.bay.blocks[0].start_time.replace(/[-:]|\.\d+/g, "")}`));

  await context.setOffline(true);
  await page.getByText(/Bay time needs the service/).waitFor();
  await context.setOffline(false);
  await page.getByText(/Bay time needs the service/).waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Give the bay time back" }).click();
  await page.getByText("No bay time is booked.").waitFor();
  assert.equal((await getJob(name)).bay, undefined);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a bay that another job has is told with who and until when; the next free time is taken, or it is booked all the same", async () => {
  const [first, second] = [await inspected(service, "holds", "Invented red van"), await inspected(service, "wants")];
  const day = monday();
  const block = (what, from, to) => ({ what, start_time: `${day}T${from}:00Z`, end_time: `${day}T${to}:00Z` });
  await asked(service, "BookingService", "BookBay", { name: first, bay: "bay-7", blocks: { blocks: [block("polish", "10:00", "12:00")] } });
  await asked(service, "BookingService", "BookBay", { name: second, bay: "bay-7", blocks: { blocks: [block("finish", "14:00", "15:00")] } });
  const { page, complaints, context } = await open(browser, { allow: refusal });
  await page.goto(`${service.url}/#/job/wants/bay`);
  const booked = page.getByRole("region", { name: "Booked in bay-7" });
  const move = async (from) => {
    await booked.getByRole("button", { name: /^Move/ }).click();
    await booked.getByLabel("From").fill(`${day}T${from}`);
    await booked.getByRole("button", { name: "Book it so" }).click();
  };
  const times = async () => (await getJob(second)).bay.blocks.map((b) => [b.start_time, b.end_time].map((t) => t.slice(11, 16)));
  await move("11:00");
  const band = page.getByRole("alert").filter({ hasText: "bay-7 is taken" });
  await band.waitFor();
  assert.match(await band.innerText(), /Job holds has it: .* 10:00 – 12:00\./);
  assert.match(await band.innerText(), /It is free for this from .* 12:00 on\./);
  assert.equal(await band.getByRole("link", { name: "Job holds" }).getAttribute("href"), "#/job/holds/bay");
  assert.equal(await page.locator(".trouble").count(), 1, "the refusal is told once");
  await look(page, "bay-taken");
  await band.getByRole("button", { name: /^Take .*12:00$/ }).click();
  await page.getByText("Moved.").waitFor();
  assert.deepEqual(await times(), [["12:00", "13:00"]], "it keeps its length");

  await move("11:30");
  await band.waitFor();
  assert.equal(await band.getByRole("button", { name: "Book it all the same" }).isVisible(), false, "apart from the rest");
  await band.getByText("Two vehicles in the bay at once?").click();
  await band.getByText("both jobs then have the bay at the same time").waitFor();
  await band.getByRole("button", { name: "Book it all the same" }).click();
  await band.waitFor({ state: "detached" });
  await until(async () => (await times())[0][0] === "11:30", "it overlaps");
  assert.equal((await getJob(first)).bay.blocks.length, 1, "the other keeps its time");

  // Laid work goes around what the other has, which is shown meanwhile.
  await page.getByLabel("The vehicle is there from").fill(`${day}T09:30`);
  const others = page.getByRole("region", { name: "Others in bay-7 from then on" });
  await others.getByRole("link", { name: /Invented red van|holds|first visit/ }).waitFor();
  await page.getByRole("button", { name: "Book anew" }).click();
  await until(async () => (await getJob(second)).bay.blocks.length > 1, "it is laid");
  const laid = await times();
  assert.ok(
    laid.every(([from, to]) => to <= "10:00" || from >= "12:00"),
    `around the other: ${laid}`,
  );
  await look(page, "bay-around");
  await others.getByText("Two vehicles in the bay at once?").click();
  await others.getByRole("button", { name: "Book it all the same" }).click();
  await until(async () => (await times()).some(([from, to]) => from < "12:00" && to > "10:00"), "it is laid over the other");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a job is edited without a network, cancelled with why, and says so", async () => {
  const name = await inspected(service, "edit-job");
  const { page, complaints, context } = await open(browser, { allow: [/ERR_INTERNET_DISCONNECTED/] });
  await page.goto(`${service.url}/#/job/edit-job/details`);
  await page.getByRole("heading", { name: "The job", exact: true }).waitFor();
  await settled(page);
  await context.setOffline(true);
  await page.getByLabel("What to call the visit").fill("spring visit");
  await page.getByLabel("Notes for the shop").fill("Keys in the box.");
  await page.getByRole("button", { name: "Keep the details" }).click();
  await page.getByText("A change waits on this device").waitFor();
  await page.reload();
  await page.getByText("A change waits on this device").waitFor();
  await context.setOffline(false);
  await waitSent(page);
  const job = await getJob(name);
  assert.equal(job.label, "spring visit");
  assert.equal(job.notes, "Keys in the box.");
  await page.locator("h1", { hasText: "spring visit" }).waitFor();

  await page.locator("summary", { hasText: "Invented dark estate" }).click();
  await page.getByLabel("Name of the vehicle").fill("Invented blue estate");
  await page.getByLabel("Year it was built").fill("1700");
  await page.getByLabel("Year it was built").press("Enter");
  await page.getByText("A number from 1885 to 2200.").waitFor();
  await page.getByLabel("Year it was built").fill("2019");
  await page.getByLabel("Year it was built").press("Tab");
  await page.getByRole("button", { name: "Keep the vehicle’s record" }).click();
  await waitSent(page);
  await page.locator("h1", { hasText: "Invented blue estate" }).waitFor();
  const vehicle = await asked(service, "JobService", "GetVehicle", { name: "vehicles/edit-job" });
  assert.deepEqual([vehicle.label, vehicle.built_year, vehicle.size], ["Invented blue estate", 2019, "VEHICLE_SIZE_MEDIUM"]);

  await page.getByRole("button", { name: "Cancel this job …" }).click();
  assert.ok(await page.getByRole("button", { name: "Cancel the job" }).isDisabled(), "without a reason");
  await page.getByLabel("Why the job is cancelled").fill("The owner sold the vehicle.");
  await page.getByRole("button", { name: "Cancel the job" }).click();
  await page.getByText("This job was cancelled").waitFor();
  await page.getByText("Why: The owner sold the vehicle.").waitFor();
  assert.equal((await getJob(name)).stage, "JOB_STAGE_CANCELLED");
  await page.getByRole("link", { name: "Work", exact: true }).click();
  await page.getByText("This job was cancelled").waitFor();
  assert.equal(await page.getByRole("button", { name: "Settle the plan" }).count(), 0);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the list of jobs is chosen from by stage and vehicle, and goes on page by page", async () => {
  await asked(service, "JobService", "CreateVehicle", { vehicle: { label: "Invented van" }, vehicle_id: "van" });
  for (let i = 0; i < 55; i++) await asked(service, "JobService", "CreateJob", { job: { vehicle: "vehicles/van", label: `visit ${i}` }, job_id: `van-${i}` });
  const all = (await asked(service, "JobService", "ListJobs", { page_size: 1000 })).jobs.length;
  const { page, complaints, context } = await open(browser);
  await page.goto(service.url);
  const cards = page.locator(".card.link");
  await until(async () => (await cards.count()) === 50, "the first page");
  await page.getByRole("button", { name: "More jobs" }).click();
  await until(async () => (await cards.count()) === all, "the second page");
  assert.equal(await page.getByRole("button", { name: "More jobs" }).count(), 0);
  await page.getByLabel("Stage").selectOption({ label: "inspected" });
  const ended = (await asked(service, "JobService", "ListJobs", { stages: ["JOB_STAGE_INSPECTED"] })).jobs.length;
  await until(async () => (await cards.count()) === ended, "those that are inspected");
  await page.getByLabel("Stage").selectOption({ label: "all stages" });
  await page.getByLabel("Vehicle").selectOption({ label: "Invented van" });
  await until(async () => (await cards.count()) === 50, "those of the van");
  await page.getByRole("button", { name: "More jobs" }).click();
  await until(async () => (await cards.count()) === 55, "the rest of the van’s");
  await page.getByLabel("Stage").selectOption({ label: "handed over" });
  await page.getByText("No job is handed over.").waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});
