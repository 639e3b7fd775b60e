// A phone that has no key yet, from the code on the service's screen to the page itself.
import assert from "node:assert/strict";
import { execFile, spawn } from "node:child_process";
import { createHash, X509Certificate } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, phone, settled } from "./house.mjs";
import { look } from "./look.mjs";
import { newJob, waitSent } from "./walk.mjs";

// A browser that went on at its warning still keeps no page on the device.
// A wrong code is refused, and a page whose certificate nobody trusts may not keep itself: Chromium tells either, the latter in two ways.
const expected = /status of 403|(SSL certificate|unknown) error occurred when fetching the script/;
const elsewhere = Object.values(networkInterfaces())
  .flat()
  .some((a) => !a.internal && !a.address.startsWith("fe80"));
// Nothing may be left out where every change is held to all of this: there the service says by itself that it finds no network.
const skip = !elsewhere && !process.env.CI && "this machine is in no network";
const program = process.env.GLOSSLADDER ?? "../../glossladder";
const folder = mkdtempSync(join(tmpdir(), "glossladder-"));
let service, browser, base, code;

before(async () => {
  if (skip) return;
  service = spawn(program, ["serve", "--lan", "--listen", ":0", "--data", join(folder, "jobs.db"), "--state", folder]);
  let out = "";
  await new Promise((resolve, reject) => {
    service.stdout.on("data", (text) => {
      out += text;
      if (out.includes("key pair.")) resolve();
    });
    service.on("exit", (status) => reject(new Error(`the service ended with ${status}`)));
  });
  service.removeAllListeners("exit");
  base = /open (https:\S+)\/pair/.exec(out)[1];
  code = /the code (\S{4})-(\S{4}),/.exec(out).slice(1).join("");
  browser = await openBrowser();
});

after(async () => {
  await browser?.close();
  if (service) {
    const ended = new Promise((resolve) => service.on("exit", resolve));
    service.kill("SIGTERM");
    await ended;
  }
  rmSync(folder, { recursive: true, force: true });
});

test("a phone is paired with the code that it scanned", { skip }, async () => {
  const context = await browser.newContext({ viewport: phone, hasTouch: true, ignoreHTTPSErrors: true, reducedMotion: "reduce" });
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && !expected.test(m.text()) && complaints.push(m.text()));
  page.on("pageerror", (e) => complaints.push(String(e)));
  await page.goto(base);
  assert.equal(page.url(), `${base}/pair`, "without a key there is only the pairing page");
  await page.getByLabel("Code").fill("0000-0000");
  await page.getByRole("button", { name: "Pair" }).click();
  await page.getByRole("alert").waitFor();
  await look(page, "pair");
  await page.goto("about:blank");
  await page.goto(`${base}/pair#${code}`);
  assert.equal(await page.getByLabel("Code").inputValue(), code);
  assert.equal(page.url(), `${base}/pair`, "the code does not stay in the address");
  await page.getByLabel("Name of this device").fill("phone in bay 2");
  await page.getByRole("button", { name: "Pair" }).click();
  await page.waitForURL(`${base}/**`);
  await page.locator("h1").first().waitFor();
  assert.notEqual(new URL(page.url()).pathname, "/pair");
  const [cookie] = await context.cookies();
  assert.deepEqual([cookie.httpOnly, cookie.secure, cookie.sameSite], [true, true, "Strict"]);
  assert.equal(await page.evaluate(() => document.cookie), "", "no script can read the key");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the pairing page is in German where the browser is", { skip }, async () => {
  const context = await browser.newContext({ viewport: phone, hasTouch: true, ignoreHTTPSErrors: true, locale: "de-DE" });
  const page = await context.newPage();
  await page.goto(`${base}/pair`);
  await page.getByRole("heading", { name: "Dieses Gerät koppeln" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
  await page.getByLabel("Code").fill("0000-0000");
  await page.getByRole("button", { name: "Koppeln" }).click();
  await page.getByRole("alert").getByText("Dieser Code ist falsch").waitFor();
  await look(page, "pair", "de");
  await context.close();
});

test("a phone that trusts the certificate keeps the page on the device, and works with it where there is no network", {
  skip,
}, async () => {
  const certificate = new X509Certificate(readFileSync(join(folder, "access", "certificate.pem")));
  const key = createHash("sha256")
    .update(certificate.publicKey.export({ type: "spki", format: "der" }))
    .digest("base64");
  const trusting = await openBrowser(`--ignore-certificate-errors-spki-list=${key}`);
  try {
    const page = await trusting.newPage();
    await page.goto(`${base}/pair#${await anotherCode()}`);
    const file = await page.request.get(`${base}/pair/certificate.crt`, { ignoreHTTPSErrors: true });
    assert.equal(new X509Certificate(await file.body()).fingerprint256, certificate.fingerprint256, "it is there to be trusted");
    await page.getByRole("button", { name: "Pair" }).click();
    await page.waitForURL(`${base}/`);
    await settled(page);
    assert.match(await page.evaluate(() => navigator.serviceWorker.controller.scriptURL), /^https:\/\/(?!127\.|localhost)/);
    await page.context().setOffline(true);
    await page.reload();
    await page.getByText("Offline: what you enter is kept on this device").waitFor();
    await newJob(page, base, "Invented coupe");
    await page.getByText("2 entries wait to be sent").waitFor();
    await page.reload();
    await page.getByText("2 entries wait to be sent").waitFor();
    await page.context().setOffline(false);
    await waitSent(page);
    const { jobs } = await (await page.request.get(`${base}/v1/jobs`, { ignoreHTTPSErrors: true })).json();
    assert.deepEqual(
      jobs.map((j) => j.stage),
      ["JOB_STAGE_BOOKED"],
    );
  } finally {
    await trusting.close();
  }
});

// anotherCode asks for a code while the service runs.
async function anotherCode() {
  const out = await new Promise((resolve, reject) => execFile(program, ["key", "pair", "--state", folder], (err, out) => (err ? reject(err) : resolve(out))));
  return /the code (\S{4})-(\S{4}),/.exec(out).slice(1).join("");
}
