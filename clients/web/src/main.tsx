import "./look/look.css";
import { hydrate } from "preact";
import { send } from "./device/outbox";
import { reach, watchReach } from "./device/reach";
import { entered } from "./entered";
import { loadFacts } from "./facts";
import { JobScreens, Outbox, Page } from "./page";
import { place } from "./route";
import { settle } from "./words/language";
import { language } from "./words/locale";

// begin takes over the frame that is seen already (see frame.tsx), with whatever was entered into it meanwhile. Where it is not what
// would be drawn now, all is drawn anew: somebody has gone on, the texts of a language cannot be had, or there is no network.
async function begin(root: HTMLElement): Promise<void> {
  await settle();
  if (root.dataset.frame !== `${language.now}/${place.now.split("/")[0]}` || reach.now !== "reached") root.replaceChildren();
  const giveBack = entered(root);
  hydrate(<Page />, root);
  await giveBack();
}
const root = document.getElementById("page");
if (root) void begin(root);

// What follows waits until the screen that was asked for is drawn and can be used.
const whenIdle = (then: () => void, latest: number) =>
  "requestIdleCallback" in window ? requestIdleCallback(then, { timeout: latest }) : setTimeout(then, 50);

const refresh = () => {
  void loadFacts().catch(() => undefined); // forms go on with the schema of the last time; the mark at the top says why
  void send();
};
watchReach(refresh);
// The class room has nothing to show without the schema.
if (place.now.startsWith("class")) refresh();
else whenIdle(refresh, 200);

// The screens of the work come next. The page opens without a network once the service worker has fetched every file of it. Where a
// browser has none, everything else still works.
const bringTheRest = () => {
  for (const screen of [JobScreens, Outbox]) void screen.bring().catch(() => undefined);
  if ("serviceWorker" in navigator) void navigator.serviceWorker.register("/sw.js").catch(() => undefined);
};
const afterwards = () => whenIdle(bringTheRest, 3_000);
if (document.readyState === "complete") afterwards();
else addEventListener("load", afterwards, { once: true });
