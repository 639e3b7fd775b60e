// The class room and the rules, on a phone and on a projector.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { open, openBrowser, program, serve } from "./house.mjs";
import { pick } from "./walk.mjs";

let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

test("moving softness changes the answer, with its reason", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${service.url}/#/class`);
  const answer = page.locator(".answer");
  await answer.getByText("Soft paint corrects with little").waitFor();
  assert.match(await answer.innerText(), /Start with\s+finish/);
  await pick(page, "Softness", "very hard");
  await answer.getByText(/Start with\s*polish/).waitFor();
  assert.doesNotMatch(await answer.innerText(), /Soft paint corrects with little/);
  await page.locator("td.here").waitFor();
  await pick(page, "A trainee would have taken", "cut");
  await page.locator(".band", { hasText: /cut/i }).first().waitFor();
  await page.getByLabel("Down").selectOption("film");
  await page.getByRole("caption").getByText(/film/i).waitFor();
  await page.getByRole("button", { name: "Ask me" }).click();
  await page.getByRole("button", { name: "polish", exact: true }).click();
  await page.getByText(/right of 1/).waitFor();
  assert.deepEqual(complaints, []);
});

test("the answer to fast moves is the one to the last of them", async () => {
  const { page } = await open(browser);
  await page.goto(`${service.url}/#/class`);
  await page.locator(".answer").waitFor();
  for (const softness of ["hard", "medium", "very soft", "very hard", "soft"]) await pick(page, "Softness", softness);
  await page.locator(".answer", { hasText: "Soft paint corrects with little" }).waitFor();
});

test("rules are browsed, and mistakes are told with line and column while somebody types", async () => {
  const { page, complaints } = await open(browser);
  await page.goto(`${service.url}/#/rules`);
  await page.getByRole("link", { name: /^start\s*\d+ rules/ }).click();
  await page.getByRole("heading", { name: "soft-paint-starts-mild" }).waitFor();
  await page
    .getByRole("link", { name: /^start\.yaml:/ })
    .first()
    .click();
  await page.getByText("This set would load.").waitFor();
  const editor = page.getByLabel("Text of start.yaml");
  const text = await editor.inputValue();
  await editor.fill(text.replace("paint.softness", "paint.sofness"));
  await page
    .getByText(/did you mean paint\.softness/)
    .first()
    .waitFor();
  await page
    .getByRole("button", { name: /^Line \d+, column \d+/ })
    .first()
    .waitFor();
  await page
    .getByRole("button", { name: /^Line \d+, column \d+/ })
    .first()
    .click();
  const marked = await editor.evaluate((e) => e.value.slice(e.selectionStart, e.selectionStart + 13));
  assert.equal(marked, "paint.sofness");
  assert.deepEqual(complaints, []);
});

test("a shop's own rule is edited, and a stronger answer has to be accepted", async () => {
  const folder = mkdtempSync(join(tmpdir(), "rules-"));
  execFileSync(program, ["rules", "copy", join(folder, "rules")]);
  const own = await serve("--rules", join(folder, "rules"));
  const { page } = await open(browser);
  try {
    await page.goto(`${own.url}/#/rules/file/start.yaml`);
    await page.getByText("This set would load.").waitFor();
    const editor = page.getByLabel("Text of start.yaml");
    const text = await editor.inputValue();
    const stronger = text.replace(/(id: soft-paint-starts-mild[\s\S]*?then: \{step: )finish/, "$1polish");
    assert.notEqual(stronger, text);
    await editor.fill(stronger);
    await page.getByText("This set would load.").waitFor();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByRole("heading", { name: "What it does to answers" }).waitFor();
    assert.equal(readFileSync(join(folder, "rules", "start.yaml"), "utf8"), text, "nothing is written before it is accepted");
    await page.getByRole("button", { name: "Accept the stronger answers and save" }).click();
    await page.getByText("start.yaml is saved and in force").waitFor();
    assert.equal(readFileSync(join(folder, "rules", "start.yaml"), "utf8"), stronger);
  } finally {
    await page.context().close();
    await own.stop();
    rmSync(folder, { recursive: true, force: true });
  }
});
