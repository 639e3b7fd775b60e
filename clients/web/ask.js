// This runs before anything else of the page is read: what takes longest on a slow phone is asked at once. It asks for the files which
// the screen needs beyond the page, and for what that screen cannot do without; src/wire/call.ts takes the answers.
{
  const files = "FILES";
  const [screen, id, stop] = location.hash.replace(/^#\/?/, "").split("/");
  globalThis.early = {};
  const ask = (method, question) => {
    const to = `/glossladder.v1.${method}`;
    const body = JSON.stringify(question);
    const headers = { "Content-Type": "application/json", "Connect-Protocol-Version": "1" };
    const answer = fetch(to, { method: "POST", headers, body, cache: "no-store" });
    answer.catch(() => undefined); // whoever takes it tells
    globalThis.early[to + body] = answer;
  };
  // While something waits to be sent, a job is not asked for: it is another one when that is on record.
  const waits = () => {
    try {
      return localStorage.getItem("unsent");
    } catch {
      return null; // a browser that keeps nothing has nothing to send
    }
  };
  // The plan comes with its job, for the two screens that show it.
  const more = stop === "plan" || stop === "work" ? { with_work_plan: true } : {};
  if (screen === "job" && id && !id.includes("~") && !waits()) ask("JobService/GetJob", { name: `jobs/${id}`, ...more });
  // Whatever no screen is called shows the jobs.
  if (!["job", "new", "waiting", "class", "rules"].includes(screen)) ask("JobService/ListJobs", { page_size: 50 });
  // The class room is made of facts. What a job needs them for is drawn later than it, and does not hold it up on the way.
  if (screen === "class") ask("AdvisorService/ListFacts", {});
  globalThis.bring = (of) => {
    for (const file of Object.hasOwn(files, of) ? files[of] : []) {
      const kind = file.endsWith(".css") ? { rel: "preload", as: "style", crossOrigin: "" } : { rel: "modulepreload" };
      document.head.append(Object.assign(document.createElement("link"), kind, { href: file }));
    }
  };
  globalThis.bring(screen);
  // What the device keeps is opened meanwhile; the first visit makes its shelves. src/device/database.ts goes on with it.
  try {
    const database = indexedDB.open("glossladder", 1);
    database.onupgradeneeded = () => {
      database.result.createObjectStore("drafts");
      database.result.createObjectStore("waiting", { keyPath: "place", autoIncrement: true });
      database.result.createObjectStore("kept");
      globalThis.nothingKept = true;
    };
    globalThis.device = database;
  } catch {
    // a browser may forbid it; whatever asks for it says so
  }
}
