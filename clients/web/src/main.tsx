import "./look/look.css";
import { hydrate } from "preact";
import { inTurn, whenIdle } from "./device/idle";
import { send } from "./device/outbox";
import { reach, watchReach } from "./device/reach";
import { entered } from "./entered";
import { loadFacts } from "./facts";
import { beginOpening } from "./job/opening";
import { Page } from "./page";
import { place } from "./route";
import { vehicle } from "./titled";
import { settle } from "./words/language";
import { language } from "./words/locale";

const [at = "", id = "", stop = "", part = ""] = place.now.split("/");

// What the screen that was asked for is made of is on its way already, or on the device (see ask.js). Most often it is there as soon as
// this script is, and then all is drawn once; what takes longer finds the page in use.
const opening = at === "job" && id && !id.includes("~") ? beginOpening(`jobs/${id}`, stop) : undefined;
const longest = 300; // ms
const late = () => new Promise<false>((then) => setTimeout(() => then(false), longest));

// begin takes over the frame that is seen already (see frame.tsx), with whatever was entered into it meanwhile. Where it is not what
// would be drawn now, all is drawn anew: somebody has gone on, the texts of a language cannot be had, or there is no network. Where the
// job is there, its screen takes the place of the frame's.
async function begin(root: HTMLElement): Promise<void> {
  const [, isThere] = await Promise.all([settle(), opening && Promise.race([opening, late()])]);
  if (isThere) root.querySelector("main")?.replaceChildren();
  if (root.dataset.frame !== `${language.now}/${place.now.split("/")[0]}` || reach.now !== "reached") root.replaceChildren();
  const giveBack = entered(root);
  hydrate(<Page />, root);
  await giveBack();
}
const root = document.getElementById("page");
if (root) void begin(root);

const told = () => void loadFacts().catch(() => undefined); // forms go on with the schema of the last time; the mark at the top says why

// Forms take their choices and ranges from the facts.
const hasForms = at === "class" || (at === "job" && (stop === "trial" || stop === "read" || part !== ""));
if (hasForms) told();

watchReach(() => {
  told();
  void send();
});

// jobIsThere settles once a job that was asked for is on the screen, or waits too long for its answer to go on waiting for that.
function jobIsThere(): Promise<void> {
  if (at !== "job" || vehicle.now) return Promise.resolve();
  return new Promise((then) => {
    vehicle.watch(then);
    setTimeout(then, 2_000);
  });
}

// What follows waits until the screen that was asked for is drawn and can be used.
void jobIsThere().then(() =>
  whenIdle(() => {
    if (!hasForms) told();
    void send();
  }, 200),
);

// The page opens without a network once the service worker has fetched every file of it. Where a browser has none, everything else
// still works; where the network goes meanwhile, it is tried again.
function bringTheRest(): void {
  document.querySelector("link[rel=icon]")?.setAttribute("href", "/icon.svg");
  if ("serviceWorker" in navigator) keepThePage();
}
function keepThePage(): void {
  const again = () => addEventListener("online", keepThePage, { once: true });
  if (navigator.onLine) navigator.serviceWorker.register("/sw.js").catch(again);
  else again();
}
const afterwards = () => void jobIsThere().then(() => inTurn(bringTheRest)); // after what lies below the first picture
if (document.readyState === "complete") afterwards();
else addEventListener("load", afterwards, { once: true });
