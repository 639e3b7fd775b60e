import type { ComponentChildren } from "preact";
import { Store, useStore } from "../device/store";
import { factOf } from "../facts";
import type { Failure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { big, panelName } from "../words/word";
import { Mark } from "./marks";

type Word = { text: string; act?: { says: string; run: () => void } };
const word = new Store<Word | undefined>(undefined);
let timer: ReturnType<typeof setTimeout> | undefined;

// say shows a short word at the foot of the screen, with one thing that can be done about it.
export function say(text: string, act?: Word["act"]): void {
  word.set({ text, act });
  endSoon();
}

// A word that has the focus stays until it is left.
const held = () => document.querySelector(".saying")?.contains(document.activeElement);

function endSoon(): void {
  clearTimeout(timer);
  timer = setTimeout(() => (held() ? endSoon() : word.set(undefined)), 8_000);
}

// hushActs takes a word back that offers something to do on a screen that is no longer there.
export function hushActs(): void {
  if (word.now?.act) word.set(undefined);
}

// Saying is where that word stands.
export function Saying() {
  const now = useStore(word);
  return (
    <div class="saying" role="status">
      {now && (
        <div>
          <span>{now.text}</span>
          {now.act && (
            <button
              type="button"
              onClick={() => {
                word.set(undefined);
                now.act?.run();
              }}
            >
              {now.act.says}
            </button>
          )}
        </div>
      )}
    </div>
  );
}

// ownNamed says a fact of the shop's own by its name for people.
const ownNamed = (field: string): string =>
  field.replace(/(^inspection\.)?shop\[(\w+)\]/, (_, __, name: string) => `“${big(factOf(`shop.${name}`).label ?? name)}”`);

// Trouble tells why there is no answer, field by field where the service says so.
export function Trouble({
  failure,
  again,
  panels = [],
  children,
}: {
  failure: Failure | undefined;
  again?: () => void;
  panels?: string[];
  children?: ComponentChildren;
}) {
  if (!failure) return null;
  // A panel is known to people by its name, not by its place in a list.
  const named = (field: string) =>
    ownNamed(field).replace(
      /^inspection\.panels\[(\d+)\]\.?/,
      (_, i) => `${panels[Number(i)] ? panelName(panels[Number(i)] ?? "") : phrase("panel {n}", { n: Number(i) + 1 })} `,
    );
  return (
    <div class="trouble" role="alert">
      <Mark shape="care">{failure.code === "unreached" ? phrase("Not reached") : phrase("No answer")}</Mark>
      {failure.violations.length > 0 ? (
        <ul>
          {failure.violations.map((v, i) => (
            <li key={i}>
              {named(v.field)}: <span lang="en">{v.description}</span>
            </li>
          ))}
        </ul>
      ) : (
        <p lang={failure.ours ? undefined : "en"}>{failure.message}</p>
      )}
      {children}
      {again && (
        <button type="button" onClick={again}>
          {phrase("Try again")}
        </button>
      )}
    </div>
  );
}
