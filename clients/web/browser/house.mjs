// A service of its own with an empty record, and a browser that looks at it as a phone does.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

export const program = process.env.GLOSSLADDER ?? "../../glossladder";
export const browserPath = process.env.CHROMIUM ?? "/usr/bin/chromium";
export const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

// How long a test waits for what must come, in ms. A busy machine is slow; what never comes is a fault after any time.
export const patience = 20_000;

export const phone = { width: 390, height: 844 };

// serve starts the service and says where it is.
export async function serve(...args) {
  const folder = mkdtempSync(join(tmpdir(), "glossladder-"));
  const child = spawn(program, ["serve", "--listen", "127.0.0.1:0", "--data", join(folder, "jobs.db"), "--state", "", ...args], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let log = "";
  child.stderr.on("data", (text) => (log += text));
  const address = await new Promise((resolve, reject) => {
    let out = "";
    child.stdout.on("data", (text) => {
      out += text;
      const found = /on (127\.0\.0\.1:\d+)/.exec(out);
      if (found) resolve(found[1]);
    });
    child.on("exit", (code) => reject(new Error(`the service ended with ${code}: ${log}`)));
  });
  return {
    url: `http://${address}`,
    call: async (service, method, question) => {
      const answer = await fetch(`http://${address}/glossladder.v1.${service}/${method}`, {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify(question),
      });
      return answer.json();
    },
    stop: async () => {
      child.removeAllListeners("exit");
      const ended = new Promise((resolve) => child.on("exit", resolve));
      child.kill("SIGTERM");
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export const openBrowser = (...more) => chromium.launch({ executablePath: browserPath, args: [...quiet, ...more] });

// open gives a page that remembers whatever its console complains of. allow: complaints that the test itself brings about.
export async function open(browser, { viewport = phone, scheme = "light", locale = "en-GB", allow = [] } = {}) {
  const context = await browser.newContext({ viewport, colorScheme: scheme, hasTouch: viewport.width < 800, locale, reducedMotion: "reduce" });
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const complaints = [];
  page.on("console", (m) => {
    if (["error", "warning"].includes(m.type()) && !allow.some((a) => a.test(m.text()))) complaints.push(`${m.text()} (${m.location().url})`);
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  return { context, page, complaints };
}

// violations of the rules that axe knows, each with the first place. At its end a page shows its foot in its place, over nothing.
export async function violations(page) {
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
  const result = await page.evaluate(() =>
    globalThis.axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      resultTypes: ["violations"],
      preload: false,
    }),
  );
  return result.violations.map((v) => `${v.id}: ${v.nodes.length} × ${v.nodes[0]?.html.slice(0, 160)} ${v.nodes[0]?.failureSummary?.split("\n")[1] ?? ""}`);
}

// tooSmall lists what can be tapped and is smaller than 44 px, apart from links within a sentence.
export const tooSmall = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll("button, a, input, select, summary, textarea")]
      .filter((e) => e.checkVisibility() && !e.closest("p") && !e.classList.contains("skip"))
      .map((e) => [e, e.getBoundingClientRect()])
      .filter(([, r]) => r.width > 0 && (r.height < 43.5 || r.width < 43.5))
      .map(([e, r]) => `${e.outerHTML.slice(0, 100)} ${Math.round(r.width)}×${Math.round(r.height)}`),
  );

// sideways says how far a page is wider than the screen.
export const sideways = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

// until asks again and again until the answer is yes. (The page's own policy keeps the browser driver from doing so inside it.)
export async function until(ask, what) {
  const end = Date.now() + patience;
  while (!(await ask())) {
    if (Date.now() > end) throw new Error(`waited in vain: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

// whole waits until nothing more is drawn: what lies below the first picture of a screen comes after it.
export const whole = (page) =>
  page.evaluate(
    () =>
      new Promise((then) => {
        let timer;
        const wait = () => {
          clearTimeout(timer);
          timer = setTimeout(() => (seen.disconnect(), then()), 120);
        };
        const seen = new MutationObserver(wait);
        seen.observe(document.body, { childList: true, subtree: true });
        wait();
      }),
  );

// settled waits until the page can do without a network: its files and the words of its forms are on the device.
export const settled = (page) =>
  until(
    () =>
      page.evaluate(
        () =>
          new Promise((resolve) => {
            if (navigator.serviceWorker.controller === null) return resolve(false);
            const opening = indexedDB.open("glossladder");
            opening.onsuccess = () => {
              const asking = opening.result.transaction("kept").objectStore("kept").getKey("facts");
              asking.onsuccess = () => {
                opening.result.close();
                resolve(asking.result !== undefined);
              };
            };
          }),
      ),
    "the page is kept on the device",
  );
