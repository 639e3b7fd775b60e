import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { inTurn } from "../device/idle";

// Soon draws what lies below the first picture of a screen once that is painted, one such piece after the other: whoever opens the
// screen reads meanwhile, and a tap is not held up. unless: it is in the first picture itself.
export function Soon({ unless = false, children }: { unless?: boolean; children: ComponentChildren }) {
  const [now, draw] = useState(unless);
  useEffect(() => (now ? undefined : inTurn(() => draw(true), true)), []);
  return now && children;
}
