// What is seen and can be done before the script of the page has come, and how the script takes that over.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve, tooSmall, until, violations } from "./house.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

// framed opens a page whose script has not come yet: its frame is all there is.
async function framed(locale, at) {
  const opened = await open(browser, { locale });
  await opened.page.route(/\/$/, async (route) => {
    const answer = await route.fetch();
    const text = await answer.text();
    const bare = text.replace(/<script type="module">[\s\S]*?<\/script>/, "");
    assert.ok(bare.length < text.length - 40_000, "the script is left out");
    await route.fulfill({ response: answer, body: bare });
  });
  await opened.page.goto(service.url + at);
  return opened;
}

// late opens a page whose script comes when it is let in: it waits for the texts that it asks for first, in German.
async function late(at) {
  const opened = await open(browser, { locale: "de-DE" });
  let letIn;
  const held = new Promise((resolve) => (letIn = resolve));
  await opened.page.route(/german-/, async (route) => (await held, await route.continue()));
  await opened.page.goto(service.url + at, { waitUntil: "commit" });
  return { ...opened, letIn };
}

const drawn = (page) => page.evaluate(() => document.getElementById("page").innerHTML);

// early names what was asked without the script and not taken yet.
const early = (page) => page.evaluate(() => Object.keys(globalThis.early).map((to) => /\w+(?=\{)/.exec(to)[0]));

for (const [locale, lang, title, begin] of [
  ["de-AT", "de", "Aufträge", "Neuer Auftrag"],
  ["en-GB", "en", "Jobs", "New job"],
  ["fr-FR", "en", "Jobs", "New job"],
]) {
  test(`the frame is in the device's language and leads on before the script has come: ${locale}`, async () => {
    const { page, complaints, context } = await framed(locale, "/");
    assert.equal(await page.evaluate(() => document.documentElement.lang), lang);
    assert.equal(await page.locator("h1").innerText(), title);
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await tooSmall(page), []);
    await page.getByRole("link", { name: begin, exact: true }).click();
    assert.match(page.url(), /#\/new$/);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test("the form of a new job is there before the script, and sends nothing without it", async () => {
  const { page, complaints, context } = await framed("en-GB", "/#/new");
  await page.getByLabel("Name of the vehicle").fill("Invented estate");
  await page.getByRole("button", { name: "Begin the inspection" }).click();
  assert.equal(await page.getByLabel("Name of the vehicle").inputValue(), "Invented estate");
  assert.match(page.url(), /\/#\/new$/);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a screen that is not there yet is told as loading, in its place", async () => {
  for (const [at, current, says] of [
    ["/#/class", "Schulung", "Wird geladen …"],
    ["/#/rules/all", "Regeln", "Wird geladen …"],
    ["/#/job/invented/plan", "Aufträge", "Auftrag\n\nDer Auftrag wird geöffnet …"],
  ]) {
    const { page, context } = await framed("de-DE", at);
    assert.equal(await page.locator("main").innerText(), says, at);
    assert.equal(await page.locator("nav [aria-current]").innerText(), current, at);
    await context.close();
  }
});

// The script keeps what is there, so it must be what the script draws. No answer of the service comes in between here.
for (const locale of ["en-GB", "de-DE"])
  for (const at of ["/", "/#/new", "/#/nowhere", "/#/100%"])
    test(`the script draws what the frame shows: ${locale} ${at}`, async () => {
      const before = await framed(locale, at);
      const frame = await drawn(before.page);
      await before.context.close();
      const { page, complaints, context } = await open(browser, { locale });
      await page.route(/glossladder\.v1/, () => new Promise(() => undefined));
      await page.goto(service.url + at);
      await until(() => page.evaluate(() => document.title !== "Glossladder"), "the script has come");
      assert.equal(await drawn(page), frame);
      assert.deepEqual(complaints, []);
      await context.close();
    });

test("what was entered before the script came is kept, and so is what was asked for", async () => {
  const { page, letIn, complaints, context } = await late("/#/new");
  await page.getByLabel("Name des Fahrzeugs").fill("Erfundener Kombi");
  await page.getByLabel("Name des Besuchs").fill("Frühling");
  await page
    .getByRole("group", { name: /^Wird matt/ })
    .getByLabel("ja", { exact: true })
    .check();
  await page.getByRole("button", { name: "Begutachtung beginnen" }).click();
  assert.match(page.url(), /#\/new$/);
  letIn();
  await page.getByRole("heading", { name: "Bauteile" }).waitFor();
  await page.getByText("Erfundener Kombi").first().waitFor();
  const record = async () => (await service.call("JobService", "ListJobs", {})).jobs ?? [];
  await until(async () => (await record()).length > 0, "the job is on record");
  const jobs = await record();
  const [vehicle] = (await service.call("JobService", "ListVehicles", {})).vehicles;
  assert.deepEqual([vehicle.label, vehicle.paint.haze_prone], ["Erfundener Kombi", true]);
  assert.deepEqual(
    jobs.map((j) => j.label),
    ["Frühling"],
  );
  assert.deepEqual(complaints, []);
  await context.close();
});

test("whoever went on before the script came is where he went", async () => {
  const { page, letIn, complaints, context } = await late("/");
  await page.getByRole("link", { name: "Neuer Auftrag" }).click();
  letIn();
  await page.getByRole("heading", { name: "Neuer Auftrag" }).waitFor();
  await page.getByLabel("Name des Fahrzeugs").fill("Kombi");
  assert.equal(await page.locator("main form").count(), 1);
  assert.equal(await page.getByRole("heading", { name: "Aufträge" }).count(), 0);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("what a screen cannot do without is asked before the script has come, and once", async () => {
  await service.call("JobService", "CreateVehicle", { vehicle: { label: "Invented saloon" }, vehicle_id: "early" });
  await service.call("JobService", "CreateJob", { job: { vehicle: "vehicles/early" }, job_id: "early" });
  const at = "/#/job/early/inspect/bonnet";
  for (const [path, methods] of [
    [at, ["GetJob"]],
    ["/#/", ["ListJobs"]],
    ["/#/class", ["ListFacts"]],
    ["/#/rules", []],
  ]) {
    const { page, context } = await framed("en-GB", path);
    assert.deepEqual(await early(page), methods, path);
    await context.close();
  }

  const { page, complaints, context } = await open(browser);
  const asked = [];
  page.on("request", (r) => /GetJob|ListFacts|ListJobs|ListVehicles/.test(r.url()) && asked.push(r.url().split("/").at(-1)));
  await page.goto(service.url);
  await page.getByRole("link", { name: /Invented saloon/ }).waitFor();
  assert.deepEqual(
    asked.splice(0).filter((method) => !["ListFacts", "ListVehicles"].includes(method)), // those come after
    ["ListJobs"],
  );
  await page.goto("about:blank");
  await page.goto(service.url + at);
  await page.getByText("wash marks", { exact: true }).waitFor();
  assert.deepEqual(asked.sort(), ["GetJob", "ListFacts"]);
  assert.deepEqual(await early(page), [], "the script has taken the answer");
  const icon = page.locator("link[rel=icon][href='/icon.svg']");
  await until(async () => (await icon.count()) === 1, "the icon comes once the screen can be used");
  assert.deepEqual(complaints, []);
  await context.close();
});
