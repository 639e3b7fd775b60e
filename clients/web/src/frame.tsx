import { renderToString } from "preact-render-to-string";
import { Page } from "./page";
import { place } from "./route";
import { german } from "./words/german/german";
import { type Language, language } from "./words/locale";
import { speak, type Texts } from "./words/phrase";

// What is seen before the script has run is what the script draws first. So it is drawn once while the page is built, in every
// language, for every screen that an address may ask for; that of the jobs is under "". A screen that is loaded when it is opened is
// drawn as still loading. Nothing of this file is in the page itself.

const screens = ["", "new", "job", "waiting", "class", "rules"];
const texts: Record<Language, Texts> = { en: { phrases: {}, words: {} }, de: german };

function framesIn(to: Language): Record<string, string> {
  speak(texts[to]);
  language.set(to);
  return Object.fromEntries(screens.map((screen) => [screen, (place.set(screen), renderToString(<Page />))]));
}

export const frames = { en: framesIn("en"), de: framesIn("de") };
