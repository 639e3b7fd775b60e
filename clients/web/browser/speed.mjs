// How long a phone takes until a working screen can be used: processor four times slower, 1.6 Mbit/s, 150 ms there and back.
// It prints and judges nothing: a busy machine says more about itself than about the page.
//
// The page looks at itself, from the start of the visit until what is waited for is there and painted, and is asked only when it has
// come to rest: the questions of a driver are slowed down four times too, and hold up the page.
import { setTimeout } from "node:timers/promises";
import { open, openBrowser, serve } from "./house.mjs";

const visits = Number(process.env.VISITS ?? 7);
const rest = 3_500; // ms
const service = await serve();
const browser = await openBrowser();

// painted is run before everything else in a page. It notes when something that fits has been there for a whole frame.
const painted = (selector) => {
  const look = () => {
    if (!document.querySelector(selector)) return requestAnimationFrame(look);
    requestAnimationFrame(() => globalThis.setTimeout(() => Object.assign(globalThis, { usable: performance.now() })));
  };
  requestAnimationFrame(look);
};

async function phone(selector) {
  const { page, context } = await open(browser);
  await page.addInitScript(painted, selector);
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  await session.send("Network.enable");
  await session.send("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 93_750 });
  return { page, close: () => context.close() };
}

async function visit(page, path) {
  await page.goto("about:blank");
  await page.goto(service.url + path);
  await setTimeout(rest);
  const seen = await page.evaluate(() => ({ usable: globalThis.usable, paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime }));
  if (!seen.usable) throw new Error(`${path} cannot be used after ${rest} ms`);
  return seen;
}

const spread = (of) => {
  const sorted = of.toSorted((a, b) => a - b).map(Math.round);
  return `${sorted[Math.floor(sorted.length / 2)]} ms (${sorted[0]} to ${sorted.at(-1)})`;
};

const told = (name, seen) =>
  console.log(`${name.padEnd(32)} usable after ${spread(seen.map((s) => s.usable))}, first paint ${spread(seen.map((s) => s.paint))}`);

async function first(name, path, selector) {
  const seen = [];
  for (let i = 0; i < visits; i++) {
    const { page, close } = await phone(selector);
    seen.push(await visit(page, path));
    await close();
  }
  told(name, seen);
}

async function later(name, path, selector) {
  const { page, close } = await phone(selector);
  await visit(page, path);
  await page.evaluate(() => navigator.serviceWorker.ready);
  const seen = [];
  for (let i = 0; i < visits; i++) seen.push(await visit(page, path));
  told(name, seen);
  await close();
}

const newJob = "main a[href='#/new']";
const begin = "main form button.main, main button.main";
const whatIf = "main input[type=range]";
console.log(`middle of ${visits} visits (least to most)`);
await first("jobs, nothing kept yet", "/", newJob);
await first("booking in, nothing kept yet", "/#/new", begin);
await first("class room, nothing kept yet", "/#/class", whatIf);
await later("jobs, kept on the device", "/", newJob);
await later("booking in, kept on the device", "/#/new", begin);
await browser.close();
await service.stop();
