import { runnerImport } from "vite";

// What the page asks of a browser when it is read: a device that has nothing kept and reaches its service.
const browser = {
  addEventListener: () => undefined,
  location: { hash: "" },
  navigator: { onLine: true, languages: [] },
};

// drawFrames draws the frames of every screen in every language, as src/frame.tsx says.
export async function drawFrames() {
  const before = Object.keys(browser).map((name) => [name, Object.getOwnPropertyDescriptor(globalThis, name)]);
  for (const [name, value] of Object.entries(browser)) Object.defineProperty(globalThis, name, { value, configurable: true });
  try {
    const { module } = await runnerImport("./src/frame.tsx", { oxc: { jsx: { runtime: "automatic", importSource: "preact" } }, logLevel: "error" });
    return module.frames;
  } finally {
    for (const [name, was] of before) {
      delete globalThis[name];
      if (was) Object.defineProperty(globalThis, name, was);
    }
  }
}
