import { type Language, language, languageOf } from "./locale";
import { speak, type Texts } from "./phrase";

// What each language calls itself.
export const names: Record<Language, string> = { en: "English", de: "Deutsch" };

const key = "language"; // where a choice is kept on the device; begin.js reads it

// Texts come in a file of their own, which the service worker keeps with the others.
const texts: Record<Language, () => Promise<Texts>> = {
  en: async () => ({ phrases: {}, words: {} }),
  de: () => import("./german/german").then((m) => m.german),
};

async function turn(to: Language): Promise<void> {
  speak(await texts[to]());
  document.documentElement.lang = to;
  language.set(to);
}

// settle brings the texts of the language that the page began in (begin.js says which), before anything is drawn over its frame. Where
// they cannot be had, the page is in English.
export const settle = (): Promise<void> => turn(languageOf(document.documentElement.lang) ?? "en").catch(() => turn("en"));

// choose turns the page to a language and keeps that on the device. It fails where the texts cannot be had.
export async function choose(to: Language): Promise<void> {
  await turn(to);
  try {
    localStorage.setItem(key, to);
  } catch {
    // then it holds until the page is closed
  }
}
