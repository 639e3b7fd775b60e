import { onReach } from "../wire/call";
import { Store } from "./store";

// reached says whether the service answered last time, as far as the device knows.
export const reached = new Store(navigator.onLine);

// watchReach keeps it in step. back is called when there is hope again.
export function watchReach(back: () => void): void {
  onReach((yes) => {
    const before = reached.now;
    reached.set(yes);
    if (yes && !before) back();
  });
  addEventListener("offline", () => reached.set(false));
  addEventListener("online", back);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && !reached.now) back();
  });
}
