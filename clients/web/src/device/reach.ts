import { onReach, type Reach } from "../wire/call";
import { Store } from "./store";

// reach says whether the service answered last time, as far as the device knows.
export const reach = new Store<Reach>(navigator.onLine ? "reached" : "lost");

// watchReach keeps it in step. back is called when there is hope again.
export function watchReach(back: () => void): void {
  onReach((now) => {
    const before = reach.now;
    reach.set(now);
    if (now === "reached" && before !== "reached") back();
  });
  addEventListener("offline", () => reach.set("lost"));
  addEventListener("online", back);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && reach.now !== "reached") back();
  });
}
