// How long a phone takes until a working screen can be used: processor four times slower, 1.6 Mbit/s, 150 ms there and back.
// It prints and judges nothing: a busy machine says more about itself than about the page. So it begins and ends with a page of one
// word, which is what this browser takes on this machine at this hour for a page that is nothing.
//
// The page looks at itself, from the start of the visit until what is waited for is there and painted, and is asked only when it has
// come to rest: the questions of a driver are slowed down four times too, and hold up the page.
import { setTimeout } from "node:timers/promises";
import { bareBrowser } from "./bare.mjs";
import { serve } from "./house.mjs";
import { fill } from "./shop.mjs";

const visits = Number(process.env.VISITS ?? 5);
const only = process.env.SCREENS?.split(","); // such as "plan,work": first visits to these alone
const speaks = process.env.SPEAKS; // such as "de-DE"; without it, the browser's own language
const rest = 2_500; // ms
const service = await serve();
await fill(service);
const browser = await bareBrowser();

// watchFor notes how long it takes from a moment on, 0 being the start of the visit, until something that fits is there and the frame
// that shows it is painted; and when the last task ended that could have held up a tap.
const watchFor = `globalThis.watchFor = (selector, from) => {
  globalThis.usable = undefined;
  const look = () => {
    if (!document.querySelector(selector)) return requestAnimationFrame(look);
    setTimeout(() => (globalThis.usable = performance.now() - from)); // that comes after this frame
  };
  requestAnimationFrame(look);
};
new PerformanceObserver((tasks) => {
  for (const task of tasks.getEntries()) globalThis.busyUntil = task.startTime + task.duration; // tasks of more than 50 ms
}).observe({ type: "longtask", buffered: true });`;

const said = JSON.stringify;

async function phone(selector) {
  const page = await browser.page();
  await page.order("Page.addScriptToEvaluateOnNewDocument", { source: `${watchFor} watchFor(${said(selector)}, 0);` });
  if (speaks) await page.order("Emulation.setUserAgentOverride", { userAgent: await page.tell("navigator.userAgent"), acceptLanguage: speaks });
  await page.order("Emulation.setCPUThrottlingRate", { rate: 4 });
  await page.order("Network.enable");
  await page.order("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 93_750 });
  return page;
}

async function visit(page, path) {
  await page.go("about:blank");
  await setTimeout(500); // until that is at rest
  await page.go(service.url + path);
  await setTimeout(rest);
  const seen = await page.tell(
    `({ usable: globalThis.usable, busyUntil: globalThis.busyUntil ?? 0, paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime })`,
  );
  if (!seen.usable) throw new Error(`${path} cannot be used after ${rest} ms`);
  return seen;
}

const spread = (of) => {
  const sorted = of.toSorted((a, b) => a - b).map(Math.round);
  return `${sorted[Math.floor(sorted.length / 2)]} ms (${sorted[0]} to ${sorted.at(-1)})`;
};

const told = (name, seen) =>
  console.log(
    `${name.padEnd(32)} usable after ${spread(seen.map((s) => s.usable))}, first paint ${spread(seen.map((s) => s.paint))}, ` +
      `last long task ends ${spread(seen.map((s) => s.busyUntil))}`,
  );

async function first(name, path, selector) {
  const seen = [];
  for (let i = 0; i < visits; i++) {
    const page = await phone(selector);
    seen.push(await visit(page, path));
    await page.close();
  }
  told(name, seen);
}

async function later(name, path, selector) {
  const page = await phone(selector);
  await visit(page, path);
  await page.tell("navigator.serviceWorker.ready.then(() => true)");
  const seen = [];
  for (let i = 0; i < visits; i++) seen.push(await visit(page, path));
  told(name, seen);
  await page.close();
}

// tap goes on from the screen that is there, as somebody does who taps a link. By the time of the tap the order for it is forgotten.
async function tap(page, link, selector) {
  await page.tell(`{
    const next = document.querySelector(${said(link)});
    setTimeout(() => {
      watchFor(${said(selector)}, performance.now());
      next.click();
    }, 500);
  }`);
  await setTimeout(rest);
  const usable = await page.tell("globalThis.usable");
  if (!usable) throw new Error(`${selector} is not there ${rest} ms after a tap on ${link}`);
  return usable;
}

async function day() {
  const seen = taps.map(() => []);
  for (let i = 0; i < visits; i++) {
    const page = await phone(screens[0][2]);
    await visit(page, "/");
    for (const [n, [, link, selector]] of taps.entries()) seen[n].push(await tap(page, link, selector));
    await page.close();
  }
  for (const [n, [name]] of taps.entries()) console.log(`${name.padEnd(32)} usable after ${spread(seen[n])}`);
}

// The screens of a working day, each with what there must be for it to be used.
const screens = [
  ["jobs", "/", "main .cards a"],
  ["booking in", "/#/new", "main form button.main"],
  ["inspection", "/#/job/booked/inspect", "main svg a"],
  ["one panel", "/#/job/inspected/inspect/bonnet", "main .panel-sheet .severity button"],
  ["readings", "/#/job/inspected/read/found/bonnet/film", "main .pad .keys"],
  ["advice", "/#/job/inspected/advice", "main .cards article"],
  ["test spot", "/#/job/tried/trial", "main .verdict"],
  ["plan", "/#/job/planned/plan", "main [aria-labelledby=hours]"],
  ["work", "/#/job/planned/work", "main .cards button"],
  ["record", "/#/job/finished/record", "main .paper"],
];
// The way through a job, each screen opened for the first time.
const stop = (name) => `nav.stops a[href$='/${name}']`;
const taps = [
  ["jobs → inspection", "main a[href*='/job/tried']", "main svg a"],
  ["→ advice", stop("advice"), "main .cards article"],
  ["→ test spot", stop("trial"), "main .verdict"],
  ["→ plan", stop("plan"), "main [aria-labelledby=hours]"],
  ["→ work", stop("work"), "main .cards article"],
  ["→ record", stop("record"), "main .paper"],
  ["→ inspection", stop("inspect"), "main svg a"],
  ["→ one panel", "main li a[href$='/bonnet']", "main .panel-sheet .severity button"],
  ["→ readings", "main a[href*='/read/found/']", "main .pad .keys"],
];
const oneWord = () => first("a page of one word", "/healthz", "pre");

console.log(`middle of ${visits} visits (least to most)`);
await oneWord();
for (const [name, path, selector] of screens) if (!only || only.includes(name)) await first(`${name}, first visit`, path, selector);
if (!only) {
  for (const [name, path, selector] of screens) await later(`${name}, kept on the device`, path, selector);
  await day();
}
await oneWord();
await browser.end();
await service.stop();
