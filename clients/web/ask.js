// This runs before anything else of the page is read: what takes longest on a slow phone is asked at once. It asks for the files which
// the screen needs beyond the page, and for what that screen cannot do without; src/wire/call.ts takes the answers.
{
  const files = "FILES";
  const [screen, id, stop, panel] = location.hash.replace(/^#\/?/, "").split("/");
  // While something waits to be sent, a job is not asked for: it is another one when that is on record.
  const waits = () => {
    try {
      return localStorage.getItem("unsent");
    } catch {
      return null; // a browser that keeps nothing has nothing to send
    }
  };
  globalThis.early = {};
  const ask = (method, question) => {
    const to = `/glossladder.v1.${method}`;
    const body = JSON.stringify(question);
    const headers = { "Content-Type": "application/json", "Connect-Protocol-Version": "1" };
    const answer = fetch(to, { method: "POST", headers, body, cache: "no-store" });
    answer.catch(() => undefined); // whoever takes it tells
    globalThis.early[to + body] = answer;
  };
  // The plan comes with its job.
  const more = stop === "plan" ? { with_work_plan: true } : {};
  if (screen === "job" && id && !id.includes("~") && !waits()) ask("JobService/GetJob", { name: `jobs/${id}`, ...more });
  globalThis.bring = (of) => {
    for (const file of Object.hasOwn(files, of) ? files[of] : []) {
      const kind = file.endsWith(".css") ? { rel: "preload", as: "style", crossOrigin: "" } : { rel: "modulepreload" };
      document.head.append(Object.assign(document.createElement("link"), kind, { href: file }));
    }
  };
  globalThis.bring(screen);
  // Forms take their choices and ranges from the facts.
  if (screen === "class" || stop === "trial" || stop === "read" || panel) ask("AdvisorService/ListFacts", {});
}
