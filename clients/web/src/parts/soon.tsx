import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";

// Soon draws what lies below the first picture of a screen once that is painted: whoever opens the screen reads meanwhile. unless: it
// is the first picture itself.
export function Soon({ unless = false, children }: { unless?: boolean; children: ComponentChildren }) {
  const [now, draw] = useState(unless);
  useEffect(() => draw(true), []);
  return now && children;
}
