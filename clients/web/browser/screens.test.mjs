// Every screen of the page, in both languages, on a phone and on a desk, by day and by night.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { open, openBrowser, program, serve, settled, until } from "./house.mjs";
import { look } from "./look.mjs";
import { asked } from "./recorded.mjs";
import { fill } from "./shop.mjs";
import { englishIn } from "./texts.mjs";

let shop, empty, browser, folder;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), "rules-"));
  execFileSync(program, ["rules", "copy", join(folder, "rules")]);
  [shop, empty, browser] = await Promise.all([serve("--rules", join(folder, "rules"), "--state", join(folder, "state")), serve(), openBrowser()]);
  await fill(shop, 12); // enough visits that outcomes speak against a bound of the rules
});
after(async () => {
  await browser?.close();
  await Promise.all([shop, empty].map((s) => s?.stop()));
  rmSync(folder, { recursive: true, force: true });
});

const press = (selector) => (page) => page.locator(selector).first().click();
const number = async (job, what) =>
  (await asked(shop, "JobService", "ListJobEvents", { parent: `jobs/${job}`, page_size: 1000 })).events.find((e) => e[what]).sequence;

// correcting opens the correction of the first event of a kind.
const correcting = (job, what) => [
  `correcting-${what}`,
  `job/${job}/events`,
  ".event",
  async (page) => {
    await page
      .locator(`#event-${await number(job, what)} .actions button`)
      .first()
      .click();
    await page.locator("#differs").waitFor();
  },
];

// stronger edits a rule of a file so that answers get stronger and a worked case comes out otherwise.
async function stronger(page) {
  const editor = page.locator("textarea.editor");
  await editor.fill((await editor.inputValue()).replace(/(id: soft-paint-starts-mild[\s\S]*?then: \{step: )finish/, "$1polish"));
  await page.locator(".effect").first().waitFor({ state: "attached" });
  await page.locator(".outcome").first().waitFor({ state: "attached" });
}

const takeBack = (page) => page.locator(".actions.foot .quiet").click();

// A screen: its name, its address, what is there once it is, what is done to it first, and what is done to leave it as it was.
const screens = {
  "jobs and booking in": [
    ["jobs", "", ".card.link"],
    [
      "jobs-none-of-a-stage",
      "",
      ".card.link",
      (page) =>
        page
          .locator("#filter-stage")
          .selectOption("JOB_STAGE_HANDED_OVER")
          .then(() => page.locator(".empty").waitFor()),
    ],
    ["new-job", "new", "#vehicle-name"],
    ["new-job-without-a-name", "new", "#vehicle-name", press(".main")],
    ["no-such-job", "job/none", ".trouble"],
  ],
  "inspection and advice": [
    ["inspect-nothing", "job/booked/inspect", ".outline"],
    ["inspect", "job/inspected/inspect", ".outline"],
    ["panel", "job/inspected/inspect/bonnet", ".severity"],
    ["panel-new", "job/inspected/inspect/boot-lid", ".panel-sheet"],
    ["keypad-film", "job/inspected/read/found/bonnet/film", ".keys"],
    [
      "keypad-refusing",
      "job/inspected/read/found/bonnet/gloss60",
      ".keys",
      async (page) => {
        await page.locator(".pad-entry input").fill("9999");
        await page.keyboard.press("Enter");
        await page.locator(".pad .wrong").waitFor();
      },
    ],
    ["advice-nothing", "job/booked/advice", ".empty"],
    ["advice", "job/inspected/advice", ".advice"],
  ],
  "test spot": [
    ["test-spot-nothing", "job/booked/trial", ".empty"],
    ["test-spot", "job/inspected/trial/bonnet", ".trial-sheet"],
    ["verdict-repeat", "job/tried/trial/bonnet", ".verdict"],
    ["verdict-accept", "job/visit-0/trial/bonnet", ".verdict"],
    ["keypad-after", "job/tried/read/trial/bonnet/gloss60", ".keys"],
  ],
  "plan and bay": [
    ["plan-nothing", "job/booked/plan", ".empty"],
    ["plan", "job/inspected/plan", ".card .big"],
    ["fit", "job/inspected/plan/fit", ".curve"],
    ["bay-none", "job/inspected/bay", ".empty"],
    ["bay", "job/bay/bay", ".block"],
    ["bay-moving", "job/bay/bay", ".block", press(".block button")],
  ],
  work: [
    ["work-unplanned", "job/inspected/work", ".band .main"],
    ["work", "job/planned/work", ".tick"],
    [
      "leaving-out",
      "job/planned/work",
      ".tick",
      async (page) => {
        await page.locator(".tick .quiet:last-child").first().click();
      },
    ],
    ["work-falls-behind", "job/visit-0/work", ".band.warn"],
    ["keypad-work", "job/planned/read/work/bonnet/gloss20", ".keys"],
    ["work-over", "job/finished/work", "#ending"],
    ["work-cancelled", "job/cancelled/work", ".band.warn"],
    ["record-nothing", "job/booked/record", ".empty"],
    ["record", "job/finished/record", ".panel-record"],
  ],
  "details and corrections": [
    ["details", "job/inspected/details", "#cancelling"],
    ["cancelling", "job/inspected/details", "#cancelling", press("section[aria-labelledby=cancelling] button")],
    ["details-cancelled", "job/cancelled/details", ".band.warn"],
    ["events", "job/finished/events", ".event"],
    ["taking-back", "job/planned/events", ".event", press(".event .actions .quiet")],
    correcting("planned", "inspection"),
    correcting("tried", "trial"),
    correcting("planned", "readings"),
    correcting("planned", "progress"),
    ["events-begun", "job/planned/events", ".band"],
    ["no-such-correction", "job/planned~999/correct", ".empty"],
  ],
  "class room": [
    ["class", "class", "td.here"],
    [
      "class-why-not",
      "class",
      "td.here",
      async (page) => {
        await page.locator("section[aria-labelledby=why-not] .chip input").nth(3).check();
        await page.locator("section[aria-labelledby=why-not] .band").first().waitFor();
      },
    ],
    [
      "quiz",
      "class",
      "td.here",
      async (page) => {
        await page.locator("section[aria-labelledby=quiz] button").click();
        await page.locator("section[aria-labelledby=quiz] .actions button").nth(2).click();
        await page.locator("section[aria-labelledby=quiz] .band").waitFor();
      },
    ],
  ],
  rules: [
    ["rules", "rules", ".rule-lists"],
    ["table", "rules/table/start", ".card.rule"],
    [
      "search",
      "rules/all",
      ".card.rule",
      async (page) => {
        await page.locator("#search").fill("softness mildest");
        await until(async () => (await page.locator(".card.rule").count()) < 40, "few are left");
      },
    ],
    ["rule-file", "rules/file/visit.yaml", ".trial .fold"],
    [
      "rule-problem",
      "rules/file/start.yaml",
      ".trial .fold",
      async (page) => {
        const editor = page.locator("textarea.editor");
        await editor.fill((await editor.inputValue()).replace("paint.softness", "paint.sofness"));
        await page.locator(".problem button").first().waitFor();
      },
      takeBack,
    ],
    ["rule-effects", "rules/file/start.yaml", ".trial .fold", stronger, takeBack],
    [
      "rule-accepting",
      "rules/file/start.yaml",
      ".trial .fold",
      async (page) => {
        await stronger(page);
        await page.locator(".actions.foot .main:enabled").click();
        await page.locator(".accepting").waitFor();
      },
      async (page) => {
        await page.locator(".accepting .quiet").click();
        await takeBack(page);
      },
    ],
    ["rules-tried", "rules/try", ".trial .fold"],
    [
      "replay",
      "rules/try",
      ".trial .fold",
      async (page) => {
        const last = page.locator("details.fold").last();
        await last.locator("summary").first().click();
        await last.locator("button:enabled").first().click();
        await last.locator(".told").waitFor();
      },
    ],
    ["no-such-file", "rules/file/none.yaml", "[role=alert]"],
    ["hints", "rules/hints", ".card"],
    ["sets", "rules/sets", ".rows a"],
    [
      "set",
      "rules/sets",
      ".rows a",
      async (page) => {
        await page.locator(".rows a").first().click();
        await page.locator(".place").first().waitFor();
      },
    ],
  ],
};

const locales = { en: "en-GB", de: "de-DE" };
const titles = { en: {}, de: {} };

// go leads to a screen by way of another, so that it is drawn afresh, and without loading the page anew.
async function go(page, base, at) {
  if (!page.url().startsWith(base)) await page.goto(`${base}/#/waiting`);
  await page.locator("h1").first().waitFor();
  for (const address of ["#/waiting", `#/${at}`])
    await page.evaluate(
      (to) =>
        new Promise((drawn) => {
          if (location.hash === to) return drawn();
          addEventListener("hashchange", () => setTimeout(drawn), { once: true });
          location.hash = to;
        }),
      address,
    );
}

// hold looks at what is on the screen.
async function hold(page, language, name) {
  await look(page, name, language);
  assert.equal(await page.evaluate(() => document.documentElement.lang), language);
  if (language === "de") assert.deepEqual(await englishIn(page), [], `${name}: English in the frame`);
}

// visit brings a screen up, looks at it, and leaves it as it was.
async function visit(page, base, language, [name, at, ready, act, undo]) {
  await go(page, base, at);
  await page.locator(ready).first().waitFor();
  await act?.(page);
  await hold(page, language, name);
  const title = await page.title();
  titles[language][title] ??= new Set();
  titles[language][title].add(at.replace(/^job\/[^/~]+/, "job")); // jobs are told apart by their vehicles
  await undo?.(page);
}

const nothing = [
  ["no-job", "", ".empty"],
  ["new-job-first", "new", "#vehicle-name"],
  ["outbox-empty", "waiting", "main p"],
  ["no-hints", "rules/hints", ".mark"],
  ["rules-as-shipped", "rules", ".rule-lists"],
];

async function every(language, base, rows) {
  const { page, complaints, context } = await open(browser, { locale: locales[language], allow: [/status of 404/] });
  for (const row of rows) await visit(page, base, language, row);
  assert.deepEqual(complaints, []);
  await context.close();
}

async function away(language) {
  const { page, complaints, context } = await open(browser, { locale: locales[language], allow: [/Failed to load resource/] });
  const screen = async (name, ready) => {
    await page.locator(ready).first().waitFor();
    await hold(page, language, name);
  };
  await page.goto(`${shop.url}/#/job/planned/work`);
  await page.locator(".tick-button").first().waitFor();
  await settled(page);
  await context.setOffline(true);
  await page.locator(".tick-button").first().click();
  await screen("work-offline", ".reach.off");
  await go(page, shop.url, "waiting");
  await screen("outbox", ".card .mark.wait");
  const answered = (status, body) => (route) => route.fulfill({ status, contentType: "application/json", body: JSON.stringify(body) });
  await page.route(/glossladder\.v1/, answered(401, { code: 16, message: "no key", details: [] }));
  await context.setOffline(false);
  await screen("not-paired", '.reach a[href="/pair"]');
  await page.unroute(/glossladder\.v1/);
  await page.route(/RecordProgress/, answered(400, { code: 9, message: "the plan has no such step", details: [] }));
  await page.evaluate(() => dispatchEvent(new Event("online")));
  await screen("outbox-refused", ".reach.refused");
  page.on("dialog", (d) => d.accept());
  await page.locator(".card .quiet").click();
  await page.locator(".reach a").waitFor({ state: "detached" });
  assert.deepEqual(complaints, []);
  await context.close();
}

// The languages are gone through side by side: each has a window of its own, and what is edited stays in it.
describe("screens", { concurrency: 2 }, () => {
  for (const language of Object.keys(locales))
    describe(language, () => {
      for (const [group, rows] of Object.entries(screens)) test(`${group}, ${language}`, () => every(language, shop.url, rows));
      test(`an empty record, ${language}`, () => every(language, empty.url, nothing));
      test(`without a network, not paired, and refused, ${language}`, () => away(language));
    });
});

test("every screen has a title of its own", () => {
  assert.ok(Object.keys(titles.en).length > 25, Object.keys(titles.en).join());
  for (const [language, seen] of Object.entries(titles))
    for (const [title, at] of Object.entries(seen)) assert.equal(at.size, 1, `${language}: "${title}" stands over ${[...at]}`);
});
