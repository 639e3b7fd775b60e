import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { loaded, waiting } from "./device/outbox";
import { reach } from "./device/reach";
import { useStore } from "./device/store";
import { facts } from "./facts";
import { keepFocus } from "./parts/keepfocus";
import { LanguageChoice } from "./parts/languagechoice";
import { later } from "./parts/later";
import { Mark } from "./parts/marks";
import { hushActs, Saying } from "./parts/notice";
import { Sign } from "./parts/sign";
import { to, usePlace } from "./route";
import { JobScreens, Outbox } from "./screens/jobframe";
import { Jobs } from "./screens/jobs";
import { NewJob } from "./screens/newjob";
import { titleOf, vehicle } from "./titled";
import { language } from "./words/locale";
import { phrase } from "./words/phrase";

// The screens of a working day come with the page; those that a working day does not need, when somebody opens them.
const ClassRoom = later(() => import("./screens/classroom").then((m) => m.ClassRoom));
const Rules = later(() => import("./screens/rules").then((m) => m.Rules));

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
      return <ClassRoom />;
    case "rules":
      return <Rules />;
    default:
      return <Jobs />;
  }
}

// Page is the frame around every screen.
export function Page() {
  const place = usePlace();
  useStore(language); // everything is drawn anew when it changes
  const main = useRef<HTMLElement>(null);
  const drawn = useRef(false);
  const schema = useStore(facts); // forms are drawn anew when it comes
  const lost = useStore(reach) !== "reached";
  // Before it is painted, so that the focus is not moved under somebody who was quicker.
  useLayoutEffect(() => {
    hushActs();
    if (drawn.current && !main.current?.contains(document.activeElement)) main.current?.focus({ preventScroll: true });
    drawn.current = true;
  }, [place.join("/")]);
  const at = place[0] ?? "jobs";
  useEffect(() => (main.current ? keepFocus(main.current) : undefined), []);
  const current = (name: string) => (at === name || (name === "jobs" && ["job", "new", "waiting"].includes(at)) ? "page" : undefined);
  return (
    <>
      {/* biome-ignore lint/a11y/useValidAnchor: it leads into the page, whose address tells the screen */}
      <a class="skip" href="#content" onClick={(e) => (e.preventDefault(), main.current?.focus())}>
        {phrase("To the content")}
      </a>
      <header class="top">
        <a class="brand" href={to()}>
          <Sign />
          <span>Glossladder</span>
        </a>
        <nav aria-label={phrase("Main")}>
          <a href={to()} aria-current={current("jobs")}>
            {phrase("Jobs")}
          </a>
          <a href={to("class")} aria-current={current("class")}>
            {phrase("Class room")}
          </a>
          <a href={to("rules")} aria-current={current("rules")}>
            {phrase("Rules")}
          </a>
        </nav>
      </header>
      <Reach />
      <main id="content" ref={main} tabIndex={-1}>
        {!schema && lost && (
          <p role="alert">
            {phrase("The choices of the forms have not come yet. Open the page once where the service is reached; from then on it works without.")}
          </p>
        )}
        <Screen />
      </main>
      <Title place={place} />
      <Saying />
      <LanguageChoice />
    </>
  );
}

// Title says over the window what is on the screen.
function Title({ place }: { place: string[] }) {
  const about = useStore(vehicle);
  useEffect(() => {
    document.title = titleOf(place, about);
  }, [place.join("/"), about, language.now]);
  return null;
}

// Reach says whether the service is reached, and what still waits on the device.
function Reach() {
  const now = useStore(reach);
  const entries = useStore(waiting);
  useEffect(() => void loaded(), []);
  const refused = entries.filter((e) => e.refused).length;
  return (
    <div role="status" class={`reach ${now === "reached" ? "" : "off"} ${refused ? "refused" : ""}`}>
      {now === "lost" && <Mark shape="stop">{phrase("Offline: what you enter is kept on this device")}</Mark>}
      {now === "unpaired" && (
        <>
          <Mark shape="stop">{phrase("Not paired: what you enter is kept on this device")}</Mark>
          <a href="/pair">{phrase("Pair this device")}</a>
        </>
      )}
      {entries.length > 0 && (
        <a href={to("waiting")}>
          {refused
            ? phrase("{n} {n|entry waits|entries wait} to be sent, {refused} refused", { n: entries.length, refused })
            : phrase("{n} {n|entry waits|entries wait} to be sent", { n: entries.length })}
        </a>
      )}
    </div>
  );
}
