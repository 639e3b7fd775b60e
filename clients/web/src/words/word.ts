// word says a value of the contract as people do: word("SOFTNESS_VERY_SOFT", "SOFTNESS") is "very soft". What is not given is "".
export function word(value: string | undefined, prefix: string): string {
  const rest = value?.startsWith(`${prefix}_`) ? value.slice(prefix.length + 1) : "";
  return rest === "" || rest === "UNSPECIFIED" ? "" : rest.toLowerCase().replaceAll("_", " ");
}

// big begins a sentence.
export const big = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

// given tells a value from none at all.
export const given = (value: string | undefined): value is string => !!value && !value.endsWith("_UNSPECIFIED");

const panelWords: Record<string, string> = { "boot-lid": "Boot lid", "bumper-front": "Front bumper", "bumper-rear": "Rear bumper" };

// panelName says a panel's id: "door-front-left" is "Front left door".
export function panelName(id: string): string {
  if (panelWords[id]) return panelWords[id];
  const parts = id.split("-");
  const sides = parts.filter((p) => ["front", "rear", "left", "right"].includes(p));
  const rest = parts.filter((p) => !sides.includes(p));
  return big([...sides, ...rest].join(" ").replaceAll("-", " "));
}

// steps of a ladder, strongest first: "LADDER_CUT_POLISH_FINISH" → ["cut", "polish", "finish"].
export const stepsOf = (ladder: string | undefined): string[] =>
  word(ladder, "LADDER")
    .split(" ")
    .filter((s) => s !== "" && s !== "none");

export const ladderWords = (ladder: string | undefined): string => (given(ladder) ? stepsOf(ladder).join(" → ") || "no step" : "not settled");
