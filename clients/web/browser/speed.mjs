// How long a phone takes until a working screen can be used: processor four times slower, 1.6 Mbit/s, 150 ms there and back.
// It prints and judges nothing: a busy machine says more about itself than about the page.
import { open, openBrowser, serve } from "./house.mjs";

const service = await serve();
const browser = await openBrowser();
const { page, context } = await open(browser);
const session = await context.newCDPSession(page);
await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
await session.send("Network.enable");
await session.send("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 93_750 });

async function visit(name, path, ready) {
  await page.goto("about:blank");
  const began = performance.now();
  await page.goto(service.url + path, { waitUntil: "commit" });
  await ready().waitFor();
  const usable = performance.now() - began;
  const paint = await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime);
  console.log(`${name.padEnd(34)} usable after ${Math.round(usable)} ms, first paint ${Math.round(paint)} ms`);
}

const link = () => page.getByRole("link", { name: "New job" });
await visit("first visit, nothing kept", "/", link);
await page.evaluate(() => navigator.serviceWorker.ready);
for (let i = 0; i < 3; i++) await visit("later visit, kept on the device", "/", link);
await visit("class room, first time", "/#/class", () => page.getByRole("heading", { name: "What if" }));
await visit("booking in", "/#/new", () => page.getByRole("button", { name: "Begin the inspection" }));
await browser.close();
await service.stop();
