// A dead spot, a lost answer, a reload, a refusal: what was entered is on record once, whatever happened on the way.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, settled } from "./house.mjs";
import { grade, newJob, pick, readings, type, waitSent } from "./walk.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

// What a browser says of its own accord when it cannot reach the service, or is told no.
const lost = [/Failed to load resource/];

// eventsOf gives what is on record of the job that is open on a page.
async function eventsOf(page) {
  const id = /#\/job\/([^/]+)/.exec(page.url())[1];
  return (await service.call("JobService", "ListJobEvents", { parent: `jobs/${id}`, page_size: 1000 })).events;
}

async function bonnet(page) {
  await page.getByRole("link", { name: /^Bonnet: / }).click();
  await grade(page, "wash marks", 2);
  await pick(page, "What the paint is on", "steel");
  await page.getByRole("link", { name: /Film, all layers/ }).click();
}

test("the network goes in the middle of a reading and the page is loaded anew", async () => {
  const { page, context, complaints } = await open(browser, { allow: lost });
  await newJob(page, service.url, "Invented van");
  await waitSent(page);
  await settled(page);
  await bonnet(page);
  await readings(page, { centre: [118, 117, 119] });
  await page.locator(".onward").click();
  await type(page, "114");
  await page.getByRole("button", { name: "Take", exact: true }).click();

  await context.setOffline(true);
  await type(page, "115");
  await page.getByRole("button", { name: "Take", exact: true }).click();
  await page.getByText("Offline: what you enter is kept on this device").waitFor();
  await page.reload();
  await page.getByText("Offline: what you enter is kept on this device").waitFor();
  await page.getByRole("radio", { name: "centre · 3" }).waitFor();
  await page.getByRole("radio", { name: "front · 2" }).check();
  await type(page, "114");
  await page.getByRole("button", { name: "Take", exact: true }).click();
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByText("1 entry waits to be sent").waitFor();
  await page.reload();
  await page.getByText("1 entry waits to be sent").waitFor();
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 0, "nothing can have arrived yet");

  await context.setOffline(false);
  await waitSent(page);
  const inspections = (await eventsOf(page)).filter((e) => e.inspection);
  assert.equal(inspections.length, 1);
  assert.deepEqual(
    inspections[0].inspection.panels[0].film.map((s) => [s.spot, s.total_um]),
    [
      ["centre", [118, 117, 119]],
      ["front", [114, 115, 114]],
    ],
  );
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a job that begins without a network is on record once there is one", async () => {
  const { page, context, complaints } = await open(browser, { allow: lost });
  await page.goto(service.url);
  await page.getByRole("link", { name: "New job" }).waitFor();
  await settled(page);
  await context.setOffline(true);
  await page.reload();
  await newJob(page, service.url, "Invented coupe");
  await page.getByText("2 entries wait to be sent").waitFor();
  await bonnet(page);
  await readings(page, { centre: [118, 117, 119] });
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByText("3 entries wait to be sent").waitFor();
  await context.setOffline(false);
  await waitSent(page);
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 1);
  const { vehicles } = await service.call("JobService", "ListVehicles", { label_prefix: "Invented coupe" });
  assert.equal(vehicles.length, 1);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a job is not asked for before it was sent", async () => {
  const { page, context, complaints } = await open(browser, { allow: lost });
  const asked = [];
  page.on("request", (r) => r.url().endsWith("/GetJob") && asked.push(r.postData()));
  await page.goto(service.url);
  await page.getByRole("link", { name: "New job" }).waitFor();
  await settled(page);
  await context.setOffline(true);
  await newJob(page, service.url, "Invented roadster");
  await page.getByText("2 entries wait to be sent").waitFor();
  await page.route(/CreateVehicle/, () => new Promise(() => undefined));
  await context.setOffline(false);
  await page.reload();
  await page.getByText("2 entries wait to be sent").waitFor();
  await page.getByRole("link", { name: /^Bonnet: / }).waitFor();
  assert.deepEqual(asked, []);
  await page.unroute(/CreateVehicle/);
  await page.reload();
  await waitSent(page);
  await page.locator(".heading.job").getByText("booked").waitFor();
  assert.ok(asked.length > 0);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("an answer that is lost on the way does not record anything twice", async () => {
  const { page, context, complaints } = await open(browser, { allow: lost });
  await newJob(page, service.url, "Invented saloon");
  await waitSent(page);
  await bonnet(page);
  await readings(page, { centre: [101, 102, 103] });
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  let arrived = 0;
  await page.route(/RecordInspection$/, async (route) => {
    await route.fetch(); // the service has it
    arrived++;
    if (arrived < 3) await route.abort("connectionreset");
    else await route.continue();
  });
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByText("1 entry waits to be sent").waitFor();
  await waitSent(page);
  assert.equal(arrived, 3);
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 1);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("what the service would refuse is told while it can still be mended", async () => {
  const { page, context, complaints } = await open(browser, { allow: lost });
  await newJob(page, service.url, "Invented hatchback");
  await page.getByRole("link", { name: /^Bonnet: / }).click();
  await page.getByRole("link", { name: /Film, all layers/ }).click();
  await type(page, "9999");
  await page.getByRole("button", { name: "Take", exact: true }).click();
  await page.getByRole("alert").getByText("lies between 0 and 3000 µm").waitFor();
  for (let i = 0; i < 4; i++) await page.getByRole("button", { name: "Delete last digit" }).click();
  await readings(page, { centre: [101, 102, 103] });
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page
    .getByRole("alert")
    .getByText(/Bonnet film: .*state the substrate/)
    .waitFor();
  await page.getByRole("link", { name: /^Bonnet: / }).click();
  await pick(page, "What the paint is on", "steel");
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByRole("heading", { name: "Panel by panel" }).waitFor();
  await waitSent(page);
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 1);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("what is refused after a dead spot is taken back, mended and recorded", async () => {
  const { page, context } = await open(browser, { allow: lost });
  await newJob(page, service.url, "Invented roadster");
  await waitSent(page);
  await settled(page);
  await context.setOffline(true);
  await page.getByRole("link", { name: /^Roof: / }).click();
  await page.getByRole("link", { name: /Film, all layers/ }).click();
  await readings(page, { centre: [101, 102, 103] });
  await page.getByRole("link", { name: "Done" }).click();
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await context.setOffline(false);
  await page.getByText("1 refused").click();
  await page.getByRole("button", { name: "Take back and mend" }).click();
  await page.getByRole("link", { name: /^Roof: / }).click();
  await pick(page, "What the paint is on", "steel");
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByRole("heading", { name: "Panel by panel" }).waitFor();
  await waitSent(page);
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 1);
  await context.close();
});

test("a device that is no longer paired keeps what it has and says so", async () => {
  const { page, context } = await open(browser, { allow: lost });
  await newJob(page, service.url, "Invented cabriolet");
  await waitSent(page);
  await page.getByRole("link", { name: /^Bonnet: / }).click();
  await grade(page, "haze", 1);
  await page.getByRole("link", { name: "All panels" }).first().click();
  await page.route(/glossladder\.v1/, (route) =>
    route.fulfill({ status: 401, contentType: "application/json", body: '{"code":16,"message":"no key","details":[]}' }),
  );
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.getByText("1 entry waits to be sent", { exact: true }).waitFor();
  await page.getByText("Not paired: what you enter is kept on this device").waitFor();
  assert.equal(await page.getByRole("link", { name: "Pair this device" }).getAttribute("href"), "/pair");
  await page.unroute(/glossladder\.v1/);
  await page.reload();
  await waitSent(page);
  assert.equal((await eventsOf(page)).filter((e) => e.inspection).length, 1);
  await context.close();
});
