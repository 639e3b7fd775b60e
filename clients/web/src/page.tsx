import type { FunctionComponent } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { waiting } from "./device/outbox";
import { reach } from "./device/reach";
import { useStore } from "./device/store";
import { facts } from "./facts";
import { Mark } from "./parts/marks";
import { hushActs, Saying } from "./parts/notice";
import { to, usePlace } from "./route";
import { JobScreens } from "./screens/jobframe";
import { Jobs } from "./screens/jobs";
import { NewJob } from "./screens/newjob";
import { Outbox } from "./screens/outbox";

// Later loads a screen that a working day does not need when somebody opens it.
function Later({ load }: { load: () => Promise<FunctionComponent> }) {
  const [Screen, set] = useState<FunctionComponent>();
  const [lost, lose] = useState(false);
  useEffect(() => {
    load().then(
      (s) => set(() => s),
      () => lose(true),
    );
  }, [load]);
  if (lost) return <p role="alert">This screen is not on the device yet, and there is no network to fetch it.</p>;
  return Screen ? <Screen /> : <p role="status">Loading …</p>;
}

const classroom = () => import("./screens/classroom").then((m) => m.ClassRoom);
const rules = () => import("./screens/rules").then((m) => m.Rules);

function Screen() {
  const [first, ...rest] = usePlace();
  switch (first) {
    case "job":
      return <JobScreens place={rest} />;
    case "new":
      return <NewJob />;
    case "waiting":
      return <Outbox />;
    case "class":
      return <Later key="class" load={classroom} />;
    case "rules":
      return <Later key="rules" load={rules} />;
    default:
      return <Jobs />;
  }
}

// Page is the frame around every screen.
export function Page() {
  const place = usePlace();
  const main = useRef<HTMLElement>(null);
  const drawn = useRef(false);
  const schema = useStore(facts); // forms are drawn anew when it comes
  const lost = useStore(reach) !== "reached";
  useEffect(() => {
    hushActs();
    if (drawn.current && !main.current?.contains(document.activeElement)) main.current?.focus({ preventScroll: true });
    drawn.current = true;
  }, [place.join("/")]);
  const at = place[0] ?? "jobs";
  const current = (name: string) => (at === name || (name === "jobs" && ["job", "new", "waiting"].includes(at)) ? "page" : undefined);
  return (
    <>
      {/* biome-ignore lint/a11y/useValidAnchor: it leads into the page, whose address tells the screen */}
      <a class="skip" href="#content" onClick={(e) => (e.preventDefault(), main.current?.focus())}>
        To the content
      </a>
      <header class="top">
        <a class="brand" href={to()}>
          <img src="/icon.svg" alt="" width="28" height="28" />
          <span>Glossladder</span>
        </a>
        <nav aria-label="Main">
          <a href={to()} aria-current={current("jobs")}>
            Jobs
          </a>
          <a href={to("class")} aria-current={current("class")}>
            Class room
          </a>
          <a href={to("rules")} aria-current={current("rules")}>
            Rules
          </a>
        </nav>
      </header>
      <Reach />
      <main id="content" ref={main} tabIndex={-1}>
        {!schema && lost && (
          <p role="alert">The choices of the forms have not come yet. Open the page once where the service is reached; from then on it works without.</p>
        )}
        <Screen />
      </main>
      <Saying />
    </>
  );
}

// Reach says whether the service is reached, and what still waits on the device.
function Reach() {
  const now = useStore(reach);
  const entries = useStore(waiting);
  const refused = entries.filter((e) => e.refused).length;
  return (
    <div role="status" class={`reach ${now === "reached" ? "" : "off"} ${refused ? "refused" : ""}`}>
      {now === "lost" && <Mark shape="stop">Offline: what you enter is kept on this device</Mark>}
      {now === "unpaired" && (
        <>
          <Mark shape="stop">Not paired: what you enter is kept on this device</Mark>
          <a href="/pair">Pair this device</a>
        </>
      )}
      {entries.length > 0 && (
        <a href={to("waiting")}>
          {entries.length === 1 ? "1 entry waits" : `${entries.length} entries wait`} to be sent{refused ? `, ${refused} refused` : ""}
        </a>
      )}
    </div>
  );
}
