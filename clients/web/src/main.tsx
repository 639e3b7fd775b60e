import "./look/look.css";
import { render } from "preact";
import { send } from "./device/outbox";
import { watchReach } from "./device/reach";
import { loadFacts } from "./facts";
import { Page } from "./page";
import { settle } from "./words/language";

const root = document.getElementById("page");
void settle().then(() => root && render(<Page />, root));

const refresh = () => {
  void loadFacts().catch(() => undefined); // forms go on with the schema of the last time; the mark at the top says why
  void send();
};
watchReach(refresh);
refresh();

// The page opens without a network once this is installed. Where a browser has none, everything else still works. It fetches every
// file of the page, so it waits until the screen that was asked for is drawn and can be used.
const install = () => void navigator.serviceWorker.register("/sw.js").catch(() => undefined);
const whenIdle = () => ("requestIdleCallback" in window ? requestIdleCallback(install, { timeout: 3_000 }) : setTimeout(install, 500));
if ("serviceWorker" in navigator) {
  if (document.readyState === "complete") whenIdle();
  else addEventListener("load", whenIdle, { once: true });
}
