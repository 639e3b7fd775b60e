// What has the focus may go away by being used: a step that is ticked off, a question that is answered. Browsers then put the focus
// nowhere. Whoever works by keyboard, or has the page read out, is to go on from where it stood, not from the top of the page.

let path: Element[] = []; // what had the focus last, and what it lies in, the nearest first
let place = "";

function remember(e: FocusEvent): void {
  path = [];
  place = location.hash;
  for (let at = e.target as Element | null; at; at = at.parentElement) path.push(at);
}

// left forgets a place that somebody left of his own accord: it is still there, and nothing else has the focus.
function left(): void {
  const from = path[0];
  setTimeout(() => {
    if (from === path[0] && document.hasFocus() && document.activeElement === document.body && usable(from)) path = [];
  });
}

const usable = (e: Element | undefined): boolean => !!e?.isConnected && !e.matches(":disabled") && e.checkVisibility();

function mend(within: HTMLElement): void {
  const at = document.activeElement;
  const gone = at === document.body || at === null || at.matches(":disabled");
  if (!gone || path.length === 0 || usable(path[0]) || place !== location.hash) return;
  const next = path.slice(1).find((e) => usable(e) && within.contains(e));
  path = [];
  if (!(next instanceof HTMLElement)) return;
  if (!next.hasAttribute("tabindex")) {
    next.tabIndex = -1;
    next.addEventListener("blur", () => next.removeAttribute("tabindex"), { once: true });
  }
  next.focus({ preventScroll: true });
}

// keepFocus puts the focus on what is left around whatever had it and went away on the same screen. It gives what ends that.
export function keepFocus(within: HTMLElement): () => void {
  const seen = new MutationObserver(() => mend(within));
  document.addEventListener("focusin", remember);
  document.addEventListener("focusout", left);
  seen.observe(within, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled", "open"] });
  return () => {
    document.removeEventListener("focusin", remember);
    document.removeEventListener("focusout", left);
    seen.disconnect();
  };
}
