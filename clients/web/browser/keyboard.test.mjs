// The page without a finger or a mouse: everything is reached by Tab, and done by Enter, space and arrows.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { open, openBrowser, program, serve, until } from "./house.mjs";
import { enter, everyStop, here, kept, pick, reach } from "./keys.mjs";
import { asked, inspected } from "./recorded.mjs";
import { fill, nextMonday } from "./shop.mjs";
import { waitSent } from "./walk.mjs";

let service, browser, folder;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), "rules-"));
  execFileSync(program, ["rules", "copy", join(folder, "rules")]);
  service = await serve("--rules", join(folder, "rules"), "--state", join(folder, "state"));
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const desk = { viewport: { width: 1440, height: 900 } };

test("a panel is inspected and recorded by keyboard alone", async () => {
  const { page, context, complaints } = await open(browser, desk);
  await page.goto(service.url);
  await page.getByRole("link", { name: "New job" }).waitFor();
  await page.keyboard.press("Tab");
  assert.equal((await here(page)).name, "To the content");
  await page.keyboard.press("Enter");
  assert.equal((await here(page)).tag, "main");
  await enter(page, /^New job$/);
  await page.getByRole("heading", { name: "New job" }).waitFor();
  await reach(page, /^Name of the vehicle/);
  await page.keyboard.type("Invented pick-up");
  await reach(page, /^Softness/);
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowRight"); // from "not known" on round to the first word
  await page.getByRole("radio", { name: "very soft" }).and(page.locator(":checked")).waitFor();
  await enter(page, /^Begin the inspection$/);
  await page.getByRole("heading", { name: "Panels" }).waitFor();
  await enter(page, /^Bonnet: not looked at/);
  await page.getByRole("heading", { name: "Bonnet" }).waitFor();
  await enter(page, /^wash marks$/);
  await reach(page, /^Wash marks: 0\.5 more$/);
  for (let i = 0; i < 4; i++) await page.keyboard.press("Space");
  await reach(page, /^What the paint is on/);
  await page.keyboard.press("ArrowRight");
  await page.getByRole("radio", { name: "steel" }).and(page.locator(":checked")).waitFor();
  await page.getByRole("link", { name: /Film, all layers/ }).focus(); // it lies before the choice just made
  await page.keyboard.press("Enter");
  await readings(page, "at least 3 readings a spot", ["118", "117.5", "119"]);
  await page.getByText("mean 118.17, spread 0.76 · 3 of 3").waitFor();
  await enter(page, /^Remove 119$/); // taken by mistake: the reading goes, and the next Tab goes on from there
  await page.getByText("· 2 of 3").waitFor();
  await enter(page, /^Undo$/);
  await page.getByText("· 3 of 3").waitFor();
  await enter(page, /^Done$/);
  await page.getByRole("heading", { name: "Bonnet" }).waitFor();
  await enter(page, /^All panels$/);
  await enter(page, /^Record the inspection$/);
  await page.getByRole("heading", { name: "Panel by panel" }).waitFor();
  await waitSent(page);
  const { jobs } = await service.call("JobService", "ListJobs", {});
  const job = await service.call("JobService", "GetJob", { name: jobs[0].name });
  assert.deepEqual(job.panels[0].found.film[0].total_um, [118, 117.5, 119]);
  assert.equal(job.panels[0].found.defects[0].severity, 2);
  assert.deepEqual(complaints, []);
  await context.close();
});

// readings are typed into the entry of the keypad, which has the focus from the start, once what stands beside it is there.
async function readings(page, beside, values) {
  await page.getByText(beside).first().waitFor();
  for (const value of values) {
    await page.keyboard.type(value);
    await page.keyboard.press("Enter");
  }
}

// trial fills in the sheet of a test spot and has it judged.
async function trial(page, values, graded) {
  await pick(page, /^Oils and fillers wiped away/, 0);
  await enter(page, /^Gloss at 60°/);
  await readings(page, /readings a spot|mean /, values);
  await enter(page, /^Done$/);
  if (graded) await enter(page, /^Wash marks: none, 0$/, "Space");
  await enter(page, /^Record and judge$/);
}

test("a job goes from the test spot to the record by keyboard alone", async () => {
  const name = await inspected(service, "keys-job");
  const { page, context, complaints } = await open(browser, desk);
  await page.goto(`${service.url}/#/job/keys-job/advice`);
  await page.getByRole("heading", { name: "Panel by panel" }).waitFor();
  await page.keyboard.press("Tab");
  await enter(page, /^Test spot on front left door$/);
  await page.getByRole("heading", { name: "The test spot" }).waitFor();
  await trial(page, ["89.2"], false);
  await page.locator(".verdict", { hasText: "repeat" }).waitFor();
  await kept(page);
  await page.getByRole("heading", { name: "The next test spot" }).waitFor();
  await trial(page, ["89.4", "89.3"], true);
  await page.locator(".verdict", { hasText: "accept" }).waitFor();
  await enter(page, /^On to the work$/);
  await enter(page, /^The plan in full$/);
  await enter(page, /^What fits the hours$/);
  await reach(page, /^Hours for the whole job/);
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("3");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "The best use of 3 h" }).waitFor();
  await enter(page, /^Take this as the plan$/);
  await page.getByRole("heading", { name: "The whole vehicle" }).waitFor();
  await waitSent(page);

  await enter(page, /^Bay time$/);
  await reach(page, /^Bay$/);
  await page.keyboard.type("bay-7");
  await page.keyboard.press("Tab");
  const [year, month, day] = nextMonday().split("-");
  await page.keyboard.type(`${month}${day}${year}`);
  await page.keyboard.press("Tab"); // on to the time
  await page.keyboard.type("0900A");
  await enter(page, /^Book the bay$/);
  await page.getByRole("region", { name: "Booked in bay-7" }).waitFor();
  assert.equal((await asked(service, "JobService", "GetJob", { name })).bay.blocks[0].start_time.slice(0, 10), nextMonday());
  await enter(page, /^Move /);
  await reach(page, /^What is done/);
  await enter(page, /^Leave it$/);
  await kept(page);

  await page.locator(".skip").focus();
  await enter(page, /^Work$/);
  const first = page.getByRole("button", { name: /^Tick off/ }).first();
  await first.waitFor();
  const what = (await first.getAttribute("aria-label")).slice("Tick off ".length);
  await enter(page, /^Tick off/, "Space");
  await page.getByRole("button", { name: `Take back: ${what}` }).waitFor();
  await enter(page, /^Take back: /); // the next stop after what was ticked
  await page.getByText(`Taken back: ${what}`).waitFor();
  await waitSent(page);
  await kept(page);
  await page.locator("main").focus(); // the same step again, from the top
  await enter(page, /^Tick off/, "Space");
  await enter(page, /^Undo$/); // the word at the foot stays until it is left
  await page.getByText(`Taken back: ${what}`).waitFor();
  await waitSent(page);
  const open_ = page.getByRole("button", { name: /^Tick off/ });
  for (let left = await open_.count(); left > 0; left--) {
    await page.locator("main").focus();
    await enter(page, /^Tick off/, "Space");
    await until(async () => (await open_.count()) < left, "the step is ticked off");
  }
  await waitSent(page);
  await enter(page, /^The work is finished$/);
  await page.getByRole("button", { name: "Handed over" }).waitFor();
  await enter(page, /^Handed over$/);
  await page.getByRole("heading", { name: "Hand over" }).waitFor({ state: "detached" });
  await kept(page);
  await page.locator(".skip").focus();
  await enter(page, /^Record$/);
  await page.getByRole("heading", { name: "Record of the work" }).waitFor();
  await waitSent(page);
  assert.equal((await asked(service, "JobService", "GetJob", { name })).stage, "JOB_STAGE_HANDED_OVER");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("an event is corrected and another taken back by keyboard alone", async () => {
  const name = await inspected(service, "keys-correct");
  await asked(service, "JobService", "RecordPlan", { name, plan: { panels: [{ panel_id: "roof", ladder: "LADDER_POLISH" }] } });
  await asked(service, "JobService", "RecordProgress", { name, progress: [{ panel_id: "roof", step: "STEP_POLISH", state: "STEP_STATE_DONE", minutes: 300 }] });
  const { page, context, complaints } = await open(browser, desk);
  await page.goto(`${service.url}/#/job/keys-correct/events`);
  await page.locator(".event").first().waitFor();
  await page.keyboard.press("Tab");
  await enter(page, /^Correct event \d+: Polish on roof/);
  await reach(page, /^Minutes worked/);
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("30");
  await reach(page, /^Why it was wrong/);
  await page.keyboard.type("A nought too many.");
  await enter(page, /^Record the correction$/);
  await page.getByText("Why: A nought too many.").waitFor();
  await waitSent(page);
  await enter(page, /^Take back event \d+: Polish on roof/);
  await reach(page, /^Why it is taken back/);
  await page.keyboard.type("Another panel.");
  await enter(page, /^Take it back$/);
  await page.getByText("Why: Another panel.").waitFor();
  await kept(page);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the class room is worked by keyboard alone", async () => {
  const { page, context, complaints } = await open(browser, desk);
  await page.goto(`${service.url}/#/class`);
  await page.locator("td.here").waitFor();
  await page.keyboard.press("Tab");
  await pick(page, /^Softness/, 4);
  await page.locator(".answer", { hasText: /Start with\s*polish/ }).waitFor();
  await reach(page, /^Severity/);
  await page.keyboard.press("End");
  await page.locator(".answer", { hasText: /Start with\s*cut/ }).waitFor();
  await enter(page, /^Take away: film/);
  await page.getByText("not measured").first().waitFor();
  await pick(page, /^A trainee would have taken/, 1);
  await page.locator("section[aria-labelledby=why-not] .band").first().waitFor();
  await reach(page, /^Down/);
  await page.keyboard.type("film");
  await page.getByRole("caption").getByText(/film/i).waitFor();
  await enter(page, /^Ask me$/);
  await page.getByText("Where would you start?").waitFor();
  await enter(page, /^polish$/);
  await page.getByText(/of 1$/).waitFor();
  await enter(page, /^Next$/);
  await page.getByText(/of 1$/).waitFor({ state: "detached" });
  await kept(page);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("rules are searched, edited and saved by keyboard alone", async () => {
  const { page, context, complaints } = await open(browser, desk);
  await page.goto(`${service.url}/#/rules`);
  await page.getByRole("heading", { name: "Tables" }).waitFor();
  await page.keyboard.press("Tab");
  await enter(page, /^Search in all rules/);
  await reach(page, /^Search in rules/);
  await page.keyboard.type("softness mildest");
  await until(async () => (await page.locator(".card.rule").count()) < 40, "few are left");
  await enter(page, /^start\.yaml:\d+/);
  await page.getByText("This set would load.").waitFor();
  await reach(page, /^Text of start\.yaml/);
  await page.keyboard.press("ControlOrMeta+End");
  await page.keyboard.type("\nnothing: here\n");
  await page
    .getByRole("button", { name: /^Line \d+/ })
    .first()
    .waitFor();
  await enter(page, /^Line \d+/);
  await until(async () => (await here(page)).tag === "textarea", "the text has the focus at the problem");
  await enter(page, /^As it was$/);
  await page.getByText("This set would load.").waitFor();
  await kept(page); // the button has nothing to take back any more
  await page.locator("main").focus();
  await reach(page, /^Text of start\.yaml/);
  await page.keyboard.press("ControlOrMeta+End");
  await page.keyboard.type("# looked through\n");
  await page.getByRole("button", { name: "Save", exact: true }).and(page.locator(":enabled")).waitFor();
  await enter(page, /would have answered/);
  await enter(page, /^Ask the record$/);
  await page.getByText(/decisions? on record/).waitFor();
  await kept(page);
  await enter(page, /^Save$/);
  await page.getByText("start.yaml is saved and in force").waitFor();
  await kept(page);
  assert.match(readFileSync(join(folder, "rules", "start.yaml"), "utf8"), /# looked through\n$/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("on every kind of screen each control has its turn, and the key comes to the end", async () => {
  const shop = await serve();
  const { page, context } = await open(browser, desk);
  try {
    await fill(shop);
    for (const [at, ready] of [
      ["", ".card.link"],
      ["new", "#vehicle-name"],
      ["job/inspected/inspect", ".outline"],
      ["job/inspected/inspect/bonnet", ".severity"],
      ["job/inspected/read/found/bonnet/film", ".keys"],
      ["job/tried/trial/bonnet", ".verdict"],
      ["job/inspected/plan", ".card .big"],
      ["job/inspected/plan/fit", ".curve"],
      ["job/bay/bay", ".block"],
      ["job/planned/work", ".tick"],
      ["job/finished/events", ".event"],
      ["job/inspected/details", "#cancelling"],
      ["class", "td.here"],
      ["rules/file/visit.yaml", ".trial .fold"],
    ]) {
      await page.goto(`${shop.url}/#/${at}`);
      await page.locator(ready).first().waitFor();
      await everyStop(page, at);
    }
  } finally {
    await context.close();
    await shop.stop();
  }
});
