import { Store } from "../device/store";

export type Language = "en" | "de";

// language is what the page is in. Parts that stand for the whole time look at it, so that all is drawn anew when it changes.
export const language = new Store<Language>("en");

const where: Record<Language, string> = { en: "en-GB", de: "de-DE" };

// locale is how figures and dates are written: as in the page's language, and as where the device is at home if that fits.
export const locale = (): string => navigator.languages.find((tag) => languageOf(tag) === language.now) ?? where[language.now];

// languageOf takes the language out of a tag such as "de-AT" (RFC 5646); undefined: the page does not speak it.
export function languageOf(tag: string | null): Language | undefined {
  const plain = tag?.split(/[-_]/)[0]?.toLowerCase();
  return plain === "en" || plain === "de" ? plain : undefined;
}
