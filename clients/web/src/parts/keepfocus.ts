// What has the focus may go away by being used: a step that is ticked off, a question that is answered. Browsers then put the focus
// nowhere. Whoever works by keyboard, or has the page read out, is to go on from where it stood, not from the top of the page.

let path: Element[] = []; // what had the focus last, and what it lies in, the nearest first
let place = "";

function remember(e: FocusEvent): void {
  path = [];
  place = location.hash;
  for (let at = e.target as Element | null; at; at = at.parentElement) path.push(at);
}

// forget is for a hand that points somewhere else: then nothing is to have the focus.
function forget(): void {
  path = [];
}

const usable = (e: Element): boolean => e.isConnected && !e.matches(":disabled") && e.checkVisibility();

function mend(within: HTMLElement): void {
  const at = document.activeElement;
  if ((at && at !== document.body && !at.matches(":disabled")) || place !== location.hash) return;
  if (path.length === 0) return;
  const next = path.find((e) => usable(e) && within.contains(e)) ?? within;
  path = [];
  if (!(next instanceof HTMLElement)) return;
  if (next.tabIndex < 0) next.tabIndex = -1; // it can be given the focus, and Tab does not come to it
  next.focus({ preventScroll: true });
}

// keepFocus puts the focus on what is left around whatever had it and went away on the same screen. It gives what ends that.
export function keepFocus(within: HTMLElement): () => void {
  const look = () => mend(within);
  const soon = () => setTimeout(look);
  const seen = new MutationObserver(look);
  document.addEventListener("focusin", remember);
  document.addEventListener("focusout", soon);
  document.addEventListener("pointerdown", forget);
  seen.observe(within, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled", "open"] });
  return () => {
    document.removeEventListener("focusin", remember);
    document.removeEventListener("focusout", soon);
    document.removeEventListener("pointerdown", forget);
    seen.disconnect();
  };
}
