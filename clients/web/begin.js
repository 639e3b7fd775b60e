// This runs before the page is seen. It puts in the frame of the screen that was asked for, in the right language: the one chosen on
// this device, or else the first of the device's own languages that the page speaks. And it asks for the files which that screen needs
// beyond the page, so that they come while the script is still being read.
{
  const frames = "FRAMES";
  const files = "FILES";
  const read = (name) => {
    try {
      return localStorage.getItem(name);
    } catch {
      return null; // a browser that keeps nothing goes by its languages
    }
  };
  const kept = read("language");
  const spoken = [kept, ...navigator.languages].map((tag) => tag?.split(/[-_]/)[0].toLowerCase()).find((tag) => Object.hasOwn(frames, tag));
  const language = spoken ?? "en";
  const [screen, id, stop, panel] = location.hash.replace(/^#\/?/, "").split("/");
  const frame = Object.hasOwn(frames[language], screen) ? screen : "";
  for (const file of new Set([language, frame, screen === "job" ? stop : ""].flatMap((of) => (Object.hasOwn(files, of ?? "") ? files[of] : [])))) {
    const kind = file.endsWith(".css") ? { rel: "preload", as: "style", crossOrigin: "" } : { rel: "modulepreload" };
    document.head.append(Object.assign(document.createElement("link"), kind, { href: file }));
  }
  // What that screen cannot do without is asked now; src/wire/call.ts takes the answers. While something waits to be sent, a job is
  // not asked for: it is another one when that is on record.
  globalThis.early = {};
  const ask = (method, question) => {
    const to = `/glossladder.v1.${method}`;
    const body = JSON.stringify(question);
    const headers = { "Content-Type": "application/json", "Connect-Protocol-Version": "1" };
    const answer = fetch(to, { method: "POST", headers, body, cache: "no-store" });
    answer.catch(() => undefined); // whoever takes it tells
    globalThis.early[to + body] = answer;
  };
  if (screen === "job" && id && !id.includes("~") && !read("unsent")) {
    ask("JobService/GetJob", { name: `jobs/${id}`, ...(stop === "plan" ? { with_work_plan: true } : {}) });
  }
  // Forms take their choices and ranges from the facts.
  if (screen === "class" || stop === "trial" || stop === "read" || panel) ask("AdvisorService/ListFacts", {});
  document.documentElement.lang = language;
  // It is written where the reading stands, so that nothing empty is drawn before.
  document.write(`<div id="page">${frames[language][frame]}</div>`);
  document.getElementById("page").dataset.frame = `${language}/${screen}`;
  // Until the script has come there is nobody who could take what a form holds.
  window.onsubmit = (event) => {
    event.preventDefault();
    event.target.dataset.sent = "";
  };
}
