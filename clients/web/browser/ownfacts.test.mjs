// Facts that a shop declares beside its rules: asked on the vehicle and on a panel, recorded, and refused at their field.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { open, openBrowser, program, serve, until } from "./house.mjs";
import { look } from "./look.mjs";
import { asked } from "./recorded.mjs";
import { grade, newJob, pick, waitSent } from "./walk.mjs";

const declared = `facts:
  - name: shop.fleet
    meaning: The vehicle belongs to a customer with many.
    kind: flag
    learn: ask whether it belongs to a fleet
  - name: shop.contract
    label: kind of contract
    meaning: What is agreed with the customer.
    kind: word
    words: [single, yearly, all-in]
    class: chosen
  - name: shop.waxed_days
    label: days since waxing
    meaning: Days since it was last waxed.
    kind: number
    unit: days
    min: 0
    max: 365
    step: 1
`;

let service, browser, folder, file;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), "ownfacts-"));
  execFileSync(program, ["rules", "copy", join(folder, "rules")]);
  file = join(folder, "rules", "facts.yaml");
  writeFileSync(file, declared);
  service = await serve("--rules", join(folder, "rules"), "--state", join(folder, "state"));
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const heading = "What this shop asks besides";

test("a shop’s own facts are asked by how they are declared, panel by panel too, and go on record", async () => {
  const { page, complaints, context } = await open(browser, { allow: [/status of 400/] });
  await newJob(page, service.url, "Invented fleet car");
  const besides = page.getByRole("region", { name: heading });
  await besides.getByText("The vehicle belongs to a customer with many.").waitFor();
  await pick(page, "Fleet", "yes");
  await pick(page, "Kind of contract", "all in");
  const days = besides.getByLabel("Days since waxing");
  await days.fill("400");
  await besides.getByText("Days since waxing lies between 0 and 365 days.").waitFor();
  await days.fill("300");
  await look(page, "own-vehicle");

  await page
    .getByRole("link", { name: /^Bonnet/ })
    .first()
    .click();
  await grade(page, "wash marks", 3);
  await pick(page, "What the paint is on", "steel");
  assert.ok(await page.getByRole("group", { name: "Fleet" }).getByLabel("as the whole vehicle").isChecked(), "a panel is as the vehicle at first");
  await page.getByRole("region", { name: heading }).getByLabel("Days since waxing").fill("3");
  await look(page, "own-panel");

  // The shop narrows what it takes while the sheet is open: the service's refusal stands at the field, on each sheet.
  writeFileSync(file, declared.replace("max: 365", "max: 200").replace("single, yearly, all-in", "single, yearly"));
  await until(async () => (await asked(service, "AdvisorService", "ListFacts", { prefix: "shop.waxed" })).facts[0].max === 200, "the rules are read anew");
  await pick(page, "Kind of contract", "all in");
  await page.getByRole("link", { name: "All panels" }).last().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  const wrong = besides.locator(".wrong");
  await until(async () => (await wrong.count()) === 2, "both stand at their field");
  assert.equal(await days.getAttribute("aria-invalid"), "true");
  await page.locator(".trouble").getByText("“Days since waxing”: 300 is not allowed").waitFor();
  await page.locator(".trouble").getByText("Bonnet “Kind of contract”:").waitFor();
  await look(page, "own-refused");
  await days.fill("100");
  await pick(page, "Kind of contract", "yearly");
  await until(async () => (await wrong.count()) === 0, "what is entered anew is not complained of");
  await page
    .getByRole("link", { name: /^Bonnet/ })
    .first()
    .click();
  await page.getByRole("group", { name: "Kind of contract" }).getByRole("alert").waitFor();
  await pick(page, "Kind of contract", "as the whole vehicle");
  await page.getByRole("link", { name: "All panels" }).last().click();
  await page.getByRole("button", { name: "Record the inspection" }).click();
  await page.waitForURL(/\/advice$/);
  await waitSent(page);
  const id = /job\/(\w+)/.exec(page.url())[1];
  const { events } = await asked(service, "JobService", "ListJobEvents", { parent: `jobs/${id}` });
  const { inspection } = events.find((e) => e.inspection);
  assert.deepEqual(inspection.shop, { fleet: true, contract: "yearly", waxed_days: 100 });
  assert.deepEqual(inspection.panels[0].shop, { waxed_days: 3 });
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the class room moves a shop’s own facts, and what a shop no longer asks is told and taken out", async () => {
  writeFileSync(file, declared);
  const { page, complaints, context } = await open(browser, { allow: [/status of 400/] });
  const sent = [];
  page.on("request", (r) => r.url().endsWith("AdvisorService/Recommend") && sent.push(r.postDataJSON().inspection.shop));
  await until(async () => (await asked(service, "AdvisorService", "ListFacts", { prefix: "shop.waxed" })).facts[0].max === 365, "the rules are read anew");
  await page.goto(`${service.url}/#/class`);
  await pick(page, "Fleet", "no");
  await until(() => sent.at(-1)?.fleet === false, "the class room asks with it");
  await look(page, "own-class");

  await newJob(page, service.url, "Invented other car");
  await pick(page, "Fleet", "yes");
  writeFileSync(file, declared.replace("shop.fleet", "shop.many"));
  await until(async () => (await asked(service, "AdvisorService", "ListFacts", { prefix: "shop.many" })).facts?.length === 1, "the rules are read anew");
  await page.reload();
  const besides = page.getByRole("region", { name: heading });
  await besides.getByText("fleet: yes. The shop no longer asks for it.").waitFor();
  await besides.getByRole("button", { name: "Remove fleet" }).click();
  await besides.getByText(/no longer asks/).waitFor({ state: "detached" });
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a shop that declares none is asked nothing", async () => {
  const plain = await serve();
  const { page, complaints, context } = await open(browser);
  await newJob(page, plain.url, "Invented plain car");
  assert.equal(await page.getByRole("region", { name: heading }).count(), 0);
  assert.deepEqual(complaints, []);
  await context.close();
  await plain.stop();
});
