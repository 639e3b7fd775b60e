import { type Language, language, languageOf } from "./locale";
import { speak, type Texts } from "./phrase";

// What each language calls itself.
export const names: Record<Language, string> = { en: "English", de: "Deutsch" };

const key = "language"; // where a choice is kept on the device

// Texts come in a file of their own, which the service worker keeps with the others.
const texts: Record<Language, () => Promise<Texts>> = {
  en: async () => ({ phrases: {}, words: {} }),
  de: () => import("./german/german").then((m) => m.german),
};

// chosen is what somebody chose on this device, or else the first of the device's own languages that the page speaks.
function chosen(): Language {
  let kept: string | null = null;
  try {
    kept = localStorage.getItem(key);
  } catch {
    // a browser that keeps nothing goes by its languages
  }
  return languageOf(kept) ?? navigator.languages.map(languageOf).find((l) => l !== undefined) ?? "en";
}

async function turn(to: Language): Promise<void> {
  speak(await texts[to]());
  document.documentElement.lang = to;
  language.set(to);
}

// settle brings the page's language before anything is drawn. Where its texts cannot be had, the page is in English.
export const settle = (): Promise<void> => turn(chosen()).catch(() => undefined);

// choose turns the page to a language and keeps that on the device. It fails where the texts cannot be had.
export async function choose(to: Language): Promise<void> {
  await turn(to);
  try {
    localStorage.setItem(key, to);
  } catch {
    // then it holds until the page is closed
  }
}
