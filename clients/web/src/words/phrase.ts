import { figure } from "./number";

// The texts of the page are written in English where they stand, and that text is the key to every other language.
// browser/words.test.mjs holds each language to every text, and to the same places to fill in.
type Texts = Record<string, string>;

let texts: Texts = {};

// speak takes the texts of a language; from then on phrase says them. English needs none.
export function speak(other: Texts) {
  texts = other;
}

// phrase says an English text in the language of the page. "{panel}" is filled in with what is given by that name, numbers as the
// device's locale writes them, and "{n|reading|readings}" with the word for one or for many. What is not translated stays English.
export function phrase(english: string, values: Record<string, string | number> = {}): string {
  return (texts[english] ?? english).replace(/\{(\w+)(?:\|([^|}]*)\|([^}]*))?\}/g, (place, name: string, one?: string, many?: string) => {
    const value = values[name];
    if (value === undefined) return place;
    if (one !== undefined) return value === 1 ? one : (many ?? "");
    return typeof value === "number" ? figure(value) : value;
  });
}
