// A browser that is told as little as can be. The driver of the tests keeps a world of its own beside the script of every page, and
// makes it anew with every visit: on a processor that is slowed down, that holds up the page by an eighth to a fifth of a second, and
// no phone has it.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { browserPath, phone, quiet } from "./house.mjs";

// bareBrowser starts one. Its pages are opened by page, each as if on a device of its own.
export async function bareBrowser() {
  const folder = mkdtempSync(join(tmpdir(), "glossladder-browser-"));
  const args = [...quiet, "--headless", "--lang=en-GB", "--remote-debugging-pipe", `--user-data-dir=${folder}`, "about:blank"];
  const child = spawn(browserPath, args, { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] });
  const send = talk(child.stdio[3], child.stdio[4]);
  const end = async () => {
    const ended = new Promise((resolve) => child.on("exit", resolve));
    child.kill("SIGTERM");
    await ended;
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  };
  return { page: () => newPage(send), end };
}

// talk sends orders in the browser's own protocol, which ends every message with a zero byte, and gives their results.
function talk(orders, answers) {
  const open = new Map();
  let rest = "";
  answers.setEncoding("utf8").on("data", (text) => {
    const messages = (rest + text).split("\0");
    rest = messages.pop();
    for (const message of messages.map((m) => JSON.parse(m))) {
      const { resolve, reject } = open.get(message.id) ?? {};
      open.delete(message.id);
      if (message.error) reject?.(new Error(message.error.message));
      else resolve?.(message.result);
    }
  });
  let last = 0;
  return (method, params = {}, sessionId = undefined) =>
    new Promise((resolve, reject) => {
      open.set(++last, { resolve, reject });
      orders.write(`${JSON.stringify({ id: last, method, params, sessionId })}\0`);
    });
}

async function newPage(send) {
  const { browserContextId } = await send("Target.createBrowserContext");
  const { targetId } = await send("Target.createTarget", { url: "about:blank", browserContextId });
  const { sessionId } = await send("Target.attachToTarget", { targetId, flatten: true });
  const order = (method, params) => send(method, params, sessionId);
  await order("Page.enable");
  await order("Emulation.setDeviceMetricsOverride", { ...phone, deviceScaleFactor: 1, mobile: true });
  return {
    order,
    go: (url) => order("Page.navigate", { url }),
    // tell runs an expression in the page and gives its value, waited for.
    tell: async (expression) => {
      const { result, exceptionDetails } = await order("Runtime.evaluate", { expression, returnByValue: true, awaitPromise: true });
      if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
      return result.value;
    },
    close: () => send("Target.disposeBrowserContext", { browserContextId }),
  };
}
