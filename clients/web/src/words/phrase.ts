import type { ComponentChildren } from "preact";
import { figure } from "./number";

// The texts of the page are written in English where they stand, and that text is the key to every other language.
// browser/words.test.mjs holds each language to every text, and to the same places to fill in.
export type Texts = {
  // What the page says, by its English text.
  phrases: Record<string, string>;
  // Words of the contract and names of panels, facts and units, by their kind and what they are in English.
  words: Record<string, Record<string, string>>;
};

let texts: Texts = { phrases: {}, words: {} };

// speak takes the texts of a language; from then on phrase says them. English needs none.
export function speak(other: Texts) {
  texts = other;
}

const places = /\{(\w+)(?:\|([^|}]*)\|([^}]*))?\}/;
const everyPlace = new RegExp(places, "g");

type Values = Record<string, string | number>;

function fill(place: string, [, name = "", one, many]: (string | undefined)[], values: Values): string {
  const value = values[name];
  if (value === undefined) return place;
  if (one !== undefined) return value === 1 ? one : (many ?? "");
  return typeof value === "number" ? figure(value) : value;
}

// phrase says an English text in the language of the page. "{panel}" is filled in with what is given by that name, numbers as the
// page's locale writes them, and "{n|reading|readings}" with the word for one or for many. What is not translated stays English.
export function phrase(english: string, values: Values = {}): string {
  return (texts.phrases[english] ?? english).replace(everyPlace, (place, ...groups) => fill(place, [place, ...groups], values));
}

// parts is phrase for a sentence with a link, a mark or a bold word in it: those are given like values, and each language puts
// them where it wants.
export function parts(english: string, values: Record<string, ComponentChildren>): ComponentChildren[] {
  const out: ComponentChildren[] = [];
  let rest = texts.phrases[english] ?? english;
  for (let at = places.exec(rest); at; at = places.exec(rest)) {
    const value = values[at[1] ?? ""];
    out.push(rest.slice(0, at.index), typeof value === "object" ? value : fill(at[0], at, values as Values));
    rest = rest.slice(at.index + at[0].length);
  }
  return [...out, rest].filter((part) => part !== "");
}

// named says a word of a kind, such as "SOFTNESS" and "very soft", in the language of the page. One that a shop made up stays.
export const named = (kind: string, english: string): string => texts.words[kind]?.[english] ?? english;
