import "./look/look.css";
import { render } from "preact";
import { send } from "./device/outbox";
import { watchReach } from "./device/reach";
import { loadFacts } from "./facts";
import { JobScreens, Page } from "./page";
import { settle } from "./words/language";

const root = document.getElementById("page");
void settle().then(() => root && render(<Page />, root));

// What follows waits until the screen that was asked for is drawn and can be used.
const whenIdle = (then: () => void, latest: number) =>
  "requestIdleCallback" in window ? requestIdleCallback(then, { timeout: latest }) : setTimeout(then, 50);

const refresh = () => {
  void loadFacts().catch(() => undefined); // forms go on with the schema of the last time; the mark at the top says why
  void send();
};
watchReach(refresh);
whenIdle(refresh, 200);

// The screens of the work come next. The page opens without a network once the service worker has fetched every file of it. Where a
// browser has none, everything else still works.
const bringTheRest = () => {
  void JobScreens.bring().catch(() => undefined);
  if ("serviceWorker" in navigator) void navigator.serviceWorker.register("/sw.js").catch(() => undefined);
};
const afterwards = () => whenIdle(bringTheRest, 3_000);
if (document.readyState === "complete") afterwards();
else addEventListener("load", afterwards, { once: true });
