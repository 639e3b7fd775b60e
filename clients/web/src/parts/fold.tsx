import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { inTurn } from "../device/idle";

type Props = { kind?: string; open?: boolean; summary: ComponentChildren; children: ComponentChildren };

// Fold is what lies one tap away. What is in it is drawn when it is opened or, so that a search in the page finds it, once the screen
// is there and the device has nothing else to do: nobody waits for what is not seen.
export function Fold({ kind = "fold", open = false, summary, children }: Props) {
  const [filled, fill] = useState(open);
  useEffect(() => (filled ? undefined : inTurn(() => fill(true))), []);
  return (
    <details class={kind} open={open} onToggle={() => fill(true)}>
      <summary>{summary}</summary>
      {filled && children}
    </details>
  );
}
