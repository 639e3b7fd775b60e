// The page without a finger or a mouse: everything is reached by Tab, and done by Enter, space and arrows.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, openBrowser, serve } from "./house.mjs";
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

// here says what has the focus, by the name that is read out, and whether it can be seen to have it.
const here = (page) =>
  page.evaluate(() => {
    const e = document.activeElement;
    const label = e.labels?.[0]?.textContent ?? e.closest("fieldset")?.querySelector("legend")?.textContent ?? "";
    const group = e.type === "radio" ? (e.closest("fieldset")?.querySelector("legend")?.textContent ?? "") : "";
    const shown = [e, e.nextElementSibling, e.querySelector("path")].filter(Boolean).some((x) => {
      const s = getComputedStyle(x);
      return (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2) || parseFloat(s.strokeWidth) >= 6;
    });
    return { name: (group || e.getAttribute("aria-label") || label || e.textContent || "").trim(), tag: e.tagName.toLowerCase(), shown };
  });

// reach tabs forward until something of that name has the focus.
async function reach(page, name) {
  for (let i = 0; i < 140; i++) {
    await page.keyboard.press("Tab");
    const at = await here(page);
    if (!name.test(at.name)) continue;
    assert.ok(at.shown, `the focus on "${at.name}" cannot be seen`);
    return at;
  }
  throw new Error(`Tab never comes to ${name}`);
}

const enter = async (page, name) => {
  await reach(page, name);
  await page.keyboard.press("Enter");
};

test("a panel is inspected and recorded by keyboard alone", async () => {
  const { page, complaints } = await open(browser, { viewport: { width: 1440, height: 900 } });
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
  await page.getByText("at least 3 readings a spot").waitFor();
  for (const value of ["118", "117.5", "119"]) {
    await page.keyboard.type(value); // the entry has the focus from the start
    await page.keyboard.press("Enter");
  }
  await page.getByText("mean 118.17, spread 0.76 · 3 of 3").waitFor();
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
});
