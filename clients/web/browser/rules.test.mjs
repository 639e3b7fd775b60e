// Rules on the page: browsed, edited with problems at their place, tried on answers, worked cases and the record, saved, and looked
// back at. How the screens look is held in screens.test.mjs, and that the keyboard does for them in keyboard.test.mjs.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { open, openBrowser, program, serve, until } from "./house.mjs";
import { look } from "./look.mjs";
import { visit } from "./visits.mjs";

const visits = 12; // enough that outcomes speak against a bound
let own, shipped, browser, folder;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), "rules-"));
  execFileSync(program, ["rules", "copy", join(folder, "rules")]);
  own = await serve("--rules", join(folder, "rules"), "--state", join(folder, "state"));
  shipped = await serve();
  browser = await openBrowser();
  await visit(own, visits);
});
after(async () => {
  await browser?.close();
  await own?.stop();
  await shipped?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const editorOf = (page, name) => page.getByLabel(`Text of ${name}`);

// edited puts a file's text through a change on the page, and gives both.
async function edited(page, name, from, to) {
  const editor = editorOf(page, name);
  const text = await editor.inputValue();
  const next = text.replace(from, to);
  assert.notEqual(next, text, "the text to be edited is there");
  await editor.fill(next);
  return { text, next };
}

const part = (page, name) => page.locator("details.fold", { has: page.getByRole("heading", { name }) });
const unfold = async (page, name) => {
  const fold = part(page, name);
  if (!(await fold.evaluate((e) => e.open))) await fold.locator("summary").first().click();
  return fold;
};

test("rules are found by their words, and a fact is told with its unit and range", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${shipped.url}/#/rules`);
  await page.getByRole("heading", { name: "Rules", exact: true }).waitFor();
  await page.getByRole("link", { name: /^limit \d+ rules/ }).click();
  await page.getByText(/the strongest answer counts/).waitFor();
  await page.getByRole("heading", { name: "limit", exact: true }).waitFor();
  await page.getByRole("link", { name: "All tables" }).click();
  await page.getByRole("link", { name: /Search in all rules/ }).click();
  const search = page.getByLabel("Search in rules");
  await search.fill("softness mildest");
  await page.getByText(/^\d+ of \d+ rules$/).waitFor();
  await page.getByRole("heading", { name: "soft-paint-starts-mild" }).waitFor();
  const [, found, all] = /(\d+) of (\d+)/.exec(await page.getByText(/^\d+ of \d+ rules$/).innerText());
  assert.equal(await page.locator(".card.rule").count(), Number(found));
  assert.ok(Number(found) < Number(all) / 10, `${found} of ${all}`);
  const card = page.locator(".card.rule", { has: page.getByRole("heading", { name: "soft-paint-starts-mild" }) });
  await card.getByText("What it asks about").click();
  await card.getByText("very-soft < soft < medium < hard < very-hard").waitFor();
  await card.getByText(/0 to 5/).waitFor();
  await search.fill("nothing has these words");
  await page.getByText(/^0 of \d+ rules$/).waitFor();
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("the rule behind a reason is one tap away", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${shipped.url}/#/class`);
  const answer = page.locator(".answer");
  await answer.getByText("Soft paint corrects with little").waitFor();
  await answer.getByText("Soft paint corrects with little").first().click();
  await answer.getByRole("link", { name: "start/soft-paint-starts-mild" }).first().click();
  const heading = page.getByRole("heading", { name: "soft-paint-starts-mild" });
  await heading.waitFor();
  await until(() => heading.evaluate((e) => e === document.activeElement), "the rule has the focus");
  await until(() => heading.evaluate((e) => e.getBoundingClientRect().top >= 0 && e.getBoundingClientRect().top < innerHeight), "and is in sight");
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("rules as shipped are tried without being saved: problem, mend, effect, a case that fails", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${shipped.url}/#/rules/file/start.yaml`);
  await page.getByText("This set would load.").waitFor();
  await part(page, "What it does to answers").getByText("none changes").waitFor();
  await part(page, "Worked cases")
    .getByText(/^all \d+ as expected$/)
    .waitFor();
  const { text } = await edited(page, "start.yaml", "paint.softness", "paint.sofness");
  const place = page.getByRole("button", { name: /^Line \d+, column \d+/ }).first();
  await place.waitFor();
  await page
    .getByText(/did you mean paint\.softness/)
    .first()
    .waitFor();
  assert.equal(await page.getByText("This set would load.").count(), 0);
  await place.click();
  const marked = await editorOf(page, "start.yaml").evaluate((e) => e.value.slice(e.selectionStart, e.selectionStart + 13));
  assert.equal(marked, "paint.sofness");

  await editorOf(page, "start.yaml").fill(text.replace(/(id: soft-paint-starts-mild[\s\S]*?then: \{step: )finish/, "$1polish"));
  const effects = part(page, "What it does to answers");
  await effects.getByText(/to be accepted/).waitFor();
  await effects.getByText("stronger answer").first().waitFor();
  assert.match(await effects.innerText(), /step: finish[\s\S]*→[\s\S]*step: polish/);
  assert.match(await effects.innerText(), /Where all of this holds: [^.]*softness at most soft/);
  const cases = part(page, "Worked cases");
  await cases.getByText(/of \d+ come out otherwise/).waitFor();
  const row = cases.getByRole("row", { name: "step finish polish" }).first();
  await row.waitFor();
  assert.match(await cases.innerText(), /Rules that no case picks: [1-9]/);
  assert.equal(await page.getByRole("button", { name: "Save", exact: true }).count(), 0, "there is no folder to save to");

  // The place of the case leads to its line in the other file; what was edited goes along.
  const link = cases.getByRole("link", { name: /^cases\/start\.yaml:\d+$/ }).first();
  const line = Number(/:(\d+)$/.exec(await link.innerText())[1]);
  await link.click();
  await page.getByRole("heading", { name: "cases/start.yaml" }).waitFor();
  const selected = await editorOf(page, "cases/start.yaml").evaluate((e) => e.value.slice(0, e.selectionStart).split("\n").length);
  assert.equal(selected, line);
  await page.getByText("Edited too, and tried together with this:").waitFor();
  await page.reload();
  await page.getByText("Edited too, and tried together with this:").getByRole("link", { name: "start.yaml" }).click();
  await part(page, "What it does to answers")
    .getByText(/to be accepted/)
    .waitFor();
  await page.getByRole("button", { name: "As it was" }).click();
  await part(page, "What it does to answers").getByText("none changes").waitFor();
  assert.equal(await editorOf(page, "start.yaml").inputValue(), text);
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a moved bound is held against the record, then saved with its worked cases as one", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${own.url}/#/rules/hints`);
  const hint = page.locator(".card", { hasText: "moderate-wash-marks" });
  await hint.getByText(/12 speak for it, 0 against it/).waitFor();
  await hint.getByRole("button", { name: "Try it in the editor" }).click();
  await page.getByRole("heading", { name: "start.yaml" }).waitFor();
  assert.match(await editorOf(page, "start.yaml").inputValue(), /let\.must_go && defect\.severity >= 1\.5\n/);
  await part(page, "What it does to answers")
    .getByText(/to be accepted/)
    .waitFor();

  const replay = await unfold(page, "What it would have answered");
  await until(() => replay.getByRole("button", { name: "Ask the record" }).isEnabled(), "the set is looked at");
  await replay.getByRole("button", { name: "Ask the record" }).click();
  await replay.getByText(/^36 decisions on record by 1 set of rules/).waitFor();
  const told = await replay.innerText();
  assert.match(told, /another start\s+12 panels/i);
  assert.match(told, /for the new answer\s+12 panels/);
  assert.match(told, /for the old answer\s+0 panels/);
  assert.match(told, /trials saved\s+\+12/i);
  assert.match(told, /1\sh\s24\smin/, "twelve trials of seven minutes");
  assert.match(told, /medium paint, wash marks, severity/i);
  assert.match(told, /What such a comparison cannot tell[\s\S]*The facts are those that were seen/);
  await replay.getByRole("button", { name: "Ask the record once more" }).waitFor();
  await look(page, "replay");
  const job = replay.getByRole("link", { name: "Bonnet" }).first();
  assert.match(await job.getAttribute("href"), /^#\/job\/visit-\d+\/advice$/);

  // A worked case that expects the old bound comes out otherwise; it is edited along, and both are saved as one.
  const cases = part(page, "Worked cases");
  const failing = cases.getByRole("link", { name: /^cases\/start\.yaml:\d+$/ });
  await failing.first().waitFor();
  await failing.first().click();
  await page.getByRole("heading", { name: "cases/start.yaml" }).waitFor();
  const file = editorOf(page, "cases/start.yaml");
  await file.fill(`${await file.inputValue()}\n# The bound of moderate wash marks was moved after twelve visits.\n`);
  await until(() => page.getByRole("button", { name: "Save 2 files" }).isEnabled(), "the set is looked at");
  await page.getByRole("button", { name: "Save 2 files" }).click();
  await page.getByText("Answers get stronger, or something is told no more. Nothing is saved yet.").waitFor();
  assert.doesNotMatch(readFileSync(join(folder, "rules", "start.yaml"), "utf8"), /must_go && defect\.severity >= 1\.5/);
  await page.getByRole("button", { name: "Accept the stronger answers and save" }).click();
  await page.getByText("start.yaml, cases/start.yaml are saved and in force").waitFor();
  assert.match(readFileSync(join(folder, "rules", "start.yaml"), "utf8"), /must_go && defect\.severity >= 1\.5/);
  assert.match(readFileSync(join(folder, "rules", "cases", "start.yaml"), "utf8"), /after twelve visits/);

  // And it can be looked back at.
  await page.goto(`${own.url}/#/rules/sets`);
  await until(async () => (await page.locator(".rows a").count()) === 2, "both sets are listed");
  await page.locator(".rows a").nth(1).click();
  await page.getByText("What bringing it back would do to answers").waitFor();
  await page.getByText("milder answer").first().waitFor();
  const lines = page.getByRole("group", { name: "Difference of start.yaml" });
  assert.match(await lines.textContent(), /−then: [^−+]*severity >= 2\+now: [^−+]*severity >= 1\.5/);
  assert.equal(await page.locator("details.fold").count(), 2, "the two files that were edited, and no other");
  await look(page, "set");
  await page.getByRole("button", { name: "Take its text into the editor" }).click();
  await page.getByRole("heading", { name: "Try the rules out" }).waitFor();
  await part(page, "What it does to answers").getByText("milder answer").first().waitFor({ state: "attached" });
  await part(page, "Worked cases")
    .getByText(/^all \d+ as expected$/)
    .waitFor();
  await page.getByRole("button", { name: "Take all back" }).click();
  await part(page, "What it does to answers").getByText("none changes").waitFor();
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a replay can be given up, and a set that does not load is not replayed", async () => {
  const { page } = await open(browser);
  let held;
  await page.route("**/glossladder.v1.HistoryService/ReplayRules", (route) => {
    held = route; // the answer does not come until somebody is tired of waiting
  });
  await page.goto(`${own.url}/#/rules/try`);
  await page.getByText("This set would load.").waitFor();
  const replay = await unfold(page, "What it would have answered");
  await until(() => replay.getByRole("button", { name: "Ask the record" }).isEnabled(), "the set is looked at");
  await replay.getByRole("button", { name: "Ask the record" }).click();
  await replay.getByRole("progressbar", { name: "Decisions asked again" }).waitFor();
  await look(page, "replaying");
  await replay.getByRole("button", { name: "Cancel" }).click();
  await replay.getByRole("button", { name: "Ask the record" }).waitFor();
  assert.ok(held, "the question was asked");
  assert.equal(await page.getByRole("alert").count(), 0, "giving up is no trouble");
  await page.unroute("**/glossladder.v1.HistoryService/ReplayRules");

  await page.goto(`${own.url}/#/rules/file/start.yaml`);
  await page.getByText("This set would load.").waitFor();
  await edited(page, "start.yaml", "paint.softness", "paint.sofness");
  await page
    .getByRole("button", { name: /^Line \d+/ })
    .first()
    .waitFor();
  const again = await unfold(page, "What it would have answered");
  assert.equal(await again.getByRole("button", { name: "Ask the record" }).isDisabled(), true);
  await page.context().close();
});

test("where nothing is on record, a replay says so and a hint is not made up", async () => {
  const { page } = await open(browser);
  await page.goto(`${shipped.url}/#/rules/try`);
  await page.getByText("This set would load.").waitFor();
  const replay = await unfold(page, "What it would have answered");
  await until(() => replay.getByRole("button", { name: "Ask the record" }).isEnabled(), "the set is looked at");
  await replay.getByRole("button", { name: "Ask the record" }).click();
  await replay.getByText(/^0 decisions on record/).waitFor();
  await page.goto(`${shipped.url}/#/rules/hints`);
  await page.getByText("No hint: no bound has enough outcomes that speak against it.").waitFor();
  await page.context().close();
});

test("somebody else's edit in between is not written over", async () => {
  const { page } = await open(browser, { allow: [/Failed to load resource/] });
  await page.goto(`${own.url}/#/rules/file/visit.yaml`);
  await page.getByText("This set would load.").waitFor();
  const { text } = await edited(page, "visit.yaml", /\n$/, "\n# mine\n");
  const file = await own.call("RulesService", "GetRuleFile", { name: "visit.yaml" });
  const theirs = `${text}# theirs\n`;
  const saved = await own.call("RulesService", "UpdateRuleFile", { file: { name: "visit.yaml", text: theirs, etag: file.etag } });
  assert.equal(saved.code, undefined, saved.message);
  await until(() => page.getByRole("button", { name: "Save", exact: true }).isEnabled(), "the set is looked at");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("alert").first().waitFor();
  assert.equal(readFileSync(join(folder, "rules", "visit.yaml"), "utf8"), theirs);
  await page.reload();
  await page.getByText("Somebody has changed this file since you began.").waitFor();
  assert.match(await editorOf(page, "visit.yaml").inputValue(), /# mine/);
  await page.getByRole("button", { name: "Take their text" }).click();
  assert.equal(await editorOf(page, "visit.yaml").inputValue(), theirs);
  await page.context().close();
});
