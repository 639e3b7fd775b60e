// The page in German: by the device's languages, by choice, and where there is no network.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openBrowser, patience, phone, serve, settled, until } from "./house.mjs";
import { catalogue, englishIn, sources } from "./texts.mjs";

const lost = /Failed to load resource/; // what a browser says when it cannot reach the service
let service, browser;
before(async () => {
  service = await serve();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

async function open(locale, viewport = phone) {
  const context = await browser.newContext({ viewport, locale, hasTouch: true, reducedMotion: "reduce" });
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const complaints = [];
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && !lost.test(m.text()) && complaints.push(m.text()));
  page.on("pageerror", (e) => complaints.push(String(e)));
  return { context, page, complaints };
}

// look holds that no text of the page is in English. What else a screen must keep in either language is in screens.test.mjs.
async function look(page, name) {
  assert.deepEqual(await englishIn(page), [], `${name}: English in the frame`);
}

// booked puts a job on record that has no panel yet.
async function booked(label) {
  const vehicle = await service.call("JobService", "CreateVehicle", {
    vehicle: { label, size: "VEHICLE_SIZE_MEDIUM", paint: { system: "PAINT_SYSTEM_CLEAR_COAT", softness: "SOFTNESS_MEDIUM", shade: "SHADE_DARK" } },
  });
  const job = await service.call("JobService", "CreateJob", { job: { vehicle: vehicle.name } });
  return job.name.slice("jobs/".length);
}

const pick = (page, group, choice) => page.getByRole("group", { name: group, exact: true }).first().getByLabel(choice, { exact: true }).check();

async function take(page, values) {
  for (const value of values) {
    for (const k of value) await page.getByRole("button", { name: k === "," ? "Dezimalzeichen" : k, exact: true }).click();
    await page.getByRole("button", { name: "Eintragen", exact: true }).click();
  }
}

test("a job is inspected, advised and tried in German", async () => {
  const { page, context, complaints } = await open("de-AT");
  await page.goto(`${service.url}/#/job/${await booked("Erfundener Kombi")}/inspect`);
  await page.getByRole("heading", { name: "Bauteile" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
  assert.equal(await page.title(), "Befund · Erfundener Kombi · Glossladder");
  await look(page, "inspect");
  await page.getByRole("link", { name: /^Motorhaube: / }).click();
  await page.getByRole("button", { name: "Waschkratzer", exact: true }).click();
  for (let i = 0; i < 5; i++) await page.getByRole("button", { name: "Waschkratzer: 0,5 mehr" }).click();
  await page.getByText("2,5 von 5").waitFor();
  await pick(page, "Worauf der Lack sitzt", "Stahl");
  for (const flag of ["Gewaschen, dekontaminiert und trocken", "Kanten, Zierteile, Embleme und Sicken abgeklebt"]) await pick(page, flag, "ja");
  for (const flag of ["In der prallen Sonne", "Eine Kante, Sicke oder erhabene Zierleiste im Bereich", "Ein Sensor oder eine Kamera hinter dem Lack"])
    await pick(page, flag, "nein");
  await pick(page, "Bekanntermaßen nachlackiert", "nein");
  await look(page, "panel");
  await page.locator('li a[href$="/film"]').click();
  await take(page, ["118", "117,5", "119"]);
  await page.getByText("Mittel 118,17, Streuung 0,76 · 3 von 3").waitFor();
  await take(page, ["9999"]);
  await page.getByRole("alert").getByText("erlaubt ist 0 bis 3000 µm").waitFor();
  await look(page, "keypad");
  await page.getByRole("link", { name: "Fertig" }).click();
  await page.locator('li a[href$="/gloss60"]').first().click();
  await take(page, ["84,2", "84,4"]);
  await page.locator(".pad-entry input").fill("84.6"); // a point does as well
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: "Fertig" }).click();
  await page.getByRole("link", { name: "Alle Bauteile" }).first().click();
  await page.getByRole("link", { name: /^Motorhaube: 1 Art von Spuren, 6 Messwerte/ }).waitFor();
  await page.getByRole("button", { name: "Begutachtung festhalten" }).click();
  await page.getByRole("heading", { name: "Bauteil für Bauteil" }).waitFor();
  await page.getByRole("link", { name: "Probestelle: Motorhaube" }).waitFor();
  await look(page, "advice");
  assert.ok(await page.locator('.headline[lang="en"]').count(), "what the rules say is marked as English");
  await page.getByRole("link", { name: "Probestelle: Motorhaube" }).click();
  await page.getByRole("heading", { name: "Die Probestelle" }).waitFor();
  await look(page, "test-spot");
  await pick(page, "Öle und Füllstoffe vor dem Messen abgewischt", "ja");
  await page.locator('li a[href$="/gloss60"]').first().click();
  await take(page, ["88,2", "88,1", "88,4"]);
  await page.getByRole("link", { name: "Fertig" }).click();
  await page.getByRole("button", { name: "Waschkratzer: 0,5 mehr" }).click();
  await page.getByRole("button", { name: "Festhalten und beurteilen" }).click();
  await page.getByText("Probestelle 1", { exact: true }).waitFor();
  await look(page, "verdict");
  await page.goto(`${page.url().replace(/\/trial.*/, "")}/record`);
  await page.getByRole("heading", { name: "Protokoll der Arbeit" }).waitFor();
  await look(page, "record");
  const full = await page.getByRole("link", { name: "Das ganze Protokoll" }).getAttribute("href");
  assert.match(await (await fetch(service.url + full)).text(), /<html lang="de-AT">[\s\S]*Protokoll der Lackaufbereitung/);
  const { jobs } = await service.call("JobService", "ListJobs", {});
  const job = await service.call("JobService", "GetJob", { name: jobs[0].name });
  assert.deepEqual(job.panels[0].found.film[0].total_um, [118, 117.5, 119], "what was typed with a comma");
  assert.deepEqual(job.panels[0].found.gloss[0].at60_gu, [84.2, 84.4, 84.6]);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the class room is in German", async () => {
  const { page, context, complaints } = await open("de-DE");
  await page.goto(`${service.url}/#/class`);
  await page.locator(".answer").waitFor();
  await pick(page, "Härte", "sehr hart");
  await page.locator("td.here").waitFor();
  await page.getByRole("button", { name: "Frag mich" }).click();
  await page.getByRole("button", { name: "Politur", exact: true }).click();
  await page.getByText(/von 1 richtig/).waitFor();
  await look(page, "class");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the language is chosen by keyboard, and stays after a reload and without a network", async () => {
  const { page, context, complaints } = await open("fr-FR");
  await page.goto(`${service.url}/#/waiting`);
  await page.getByRole("heading", { name: "Waiting on this device" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "en", "nobody has French");
  const choice = page.getByLabel("Language · Sprache");
  for (let i = 0; i < 40 && !(await choice.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press("Tab");
  await page.keyboard.type("Deu");
  await page.getByRole("heading", { name: "Wartet auf diesem Gerät" }).waitFor();
  assert.ok(await choice.evaluate((e) => e === document.activeElement), "the choice keeps the focus");
  assert.deepEqual(await page.evaluate(() => [document.documentElement.lang, document.title]), ["de", "Wartet auf diesem Gerät · Glossladder"]);
  await look(page, "waiting");
  await settled(page);
  await context.setOffline(true);
  await page.reload();
  await page.getByRole("heading", { name: "Wartet auf diesem Gerät" }).waitFor();
  await choice.selectOption("English");
  await page.getByRole("heading", { name: "Waiting on this device" }).waitFor();
  await page.reload();
  await page.getByRole("heading", { name: "Waiting on this device" }).waitFor();
  await choice.selectOption("Deutsch");
  await page.getByRole("heading", { name: "Wartet auf diesem Gerät" }).waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});

test("who reads English loads no German before the page stands", async () => {
  const { page, context } = await open("en-GB");
  await page.addInitScript(() => Object.defineProperty(navigator, "serviceWorker", { value: undefined }));
  const loaded = [];
  page.on("request", (r) => loaded.push(r.url()));
  await page.goto(`${service.url}/#/waiting`);
  await page.getByRole("heading", { name: "Waiting on this device" }).waitFor();
  assert.deepEqual(
    loaded.filter((url) => /german/.test(url)),
    [],
  );
  await page.getByLabel("Language · Sprache").selectOption("Deutsch");
  await page.getByRole("heading", { name: "Wartet auf diesem Gerät" }).waitFor();
  assert.equal(loaded.filter((url) => /german/.test(url)).length, 1);
  await context.close();
});

test("a language that cannot be fetched leaves the page as it was, and says so", async () => {
  const { page, context } = await open("en-GB");
  await page.addInitScript(() => Object.defineProperty(navigator, "serviceWorker", { value: undefined }));
  await page.goto(`${service.url}/#/waiting`);
  await page.getByRole("heading", { name: "Waiting on this device" }).waitFor();
  await page.route(/german/, (route) => route.abort());
  const choice = page.getByLabel("Language · Sprache");
  await choice.selectOption("Deutsch");
  await page.getByText("The texts of that language are not on the device yet").waitFor();
  await until(async () => (await choice.inputValue()) === "en", "the choice says what the page is in");
  await context.close();
});

test("every fact that the forms ask for, and its unit, has a German name", async () => {
  const { facts } = await service.call("AdvisorService", "ListFacts", {});
  const all = sources();
  const asked = new Set(all.flatMap((f) => [...f.text.matchAll(/\bfact(?:=|: )"([a-z0-9_.]+)"/g)].map((m) => m[1])));
  const { words } = Object.assign({}, ...all.filter((f) => f.path === "words/german/words.ts").map(catalogue));
  const known = (kind) => words.find((w) => w.key === kind).inside.map((w) => w.key);
  const [labels, units] = [known("FACT"), known("UNIT")];
  assert.ok(asked.size > 15, String(asked.size));
  for (const name of asked) {
    const fact = facts.find((f) => f.name === name);
    assert.ok(labels.includes(fact.label), `${name}: "${fact.label}" has no German`);
    assert.ok(!/^[a-z]{4,}$/.test(fact.unit ?? "") || units.includes(fact.unit), `${name}: "${fact.unit}" has no German`);
  }
  const every = new Set(facts.map((f) => f.label));
  const shown = [...every, "softness", "kept"];
  for (const label of labels) assert.ok(shown.includes(label), `no fact is called "${label}"`);
});

test("where the texts of a language cannot be had, the page is in English and says so to readers", async () => {
  const { page, context } = await open("de-DE");
  await page.route(/german-/, (route) => route.abort());
  await page.goto(service.url);
  await page.getByRole("heading", { name: "Jobs" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "en");
  await context.close();
});
