import { language } from "./locale";
import { named, phrase } from "./phrase";

// token says a value of the contract in plain English, whatever the page's language is: token("SOFTNESS_VERY_SOFT", "SOFTNESS") is
// "very soft". It is for comparing, and for classes of the drawing; people are told words.
export function token(value: string | undefined, prefix: string): string {
  const rest = value?.startsWith(`${prefix}_`) ? value.slice(prefix.length + 1) : "";
  return rest === "" || rest === "UNSPECIFIED" ? "" : rest.toLowerCase().replaceAll("_", " ");
}

// word says a value of the contract as people do, in the language of the page. What is not given is "".
export const word = (value: string | undefined, prefix: string): string => named(prefix, token(value, prefix));

// big begins a sentence.
export const big = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

// small writes a name within a sentence. Where names are written with a capital, they keep it.
export const small = (text: string): string => (language.now === "en" ? text.charAt(0).toLowerCase() + text.slice(1) : text);

// given tells a value from none at all.
export const given = (value: string | undefined): value is string => !!value && !value.endsWith("_UNSPECIFIED");

const panelWords: Record<string, string> = { "boot-lid": "Boot lid", "bumper-front": "Front bumper", "bumper-rear": "Rear bumper" };

// panelName says a panel's id: "door-front-left" is "Front left door".
export const panelName = (id: string): string => named("PANEL", englishPanel(id));

function englishPanel(id: string): string {
  if (panelWords[id]) return panelWords[id];
  const parts = id.split("-");
  const sides = parts.filter((p) => ["front", "rear", "left", "right"].includes(p));
  const rest = parts.filter((p) => !sides.includes(p));
  return big([...sides, ...rest].join(" ").replaceAll("-", " "));
}

// tokensOf gives the steps of a ladder, strongest first: "LADDER_CUT_POLISH_FINISH" → ["cut", "polish", "finish"].
export const tokensOf = (ladder: string | undefined): string[] =>
  token(ladder, "LADDER")
    .split(" ")
    .filter((s) => s !== "" && s !== "none");

// stepsOf says them.
export const stepsOf = (ladder: string | undefined): string[] => tokensOf(ladder).map((s) => named("STEP", s));

export const ladderWords = (ladder: string | undefined): string => (given(ladder) ? stepsOf(ladder).join(" → ") || phrase("no step") : phrase("not settled"));
