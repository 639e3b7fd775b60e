import { Store } from "./device/store";
import { quantities } from "./job/quantities";
import { ofAddress } from "./rules/address";
import { phrase } from "./words/phrase";
import { panelName } from "./words/word";

// vehicle is the name of the vehicle whose job is on the screen.
export const vehicle = new Store("");

const jobScreens: Record<string, () => string> = {
  inspect: () => phrase("Inspect"),
  advice: () => phrase("Advice"),
  trial: () => phrase("Test spot"),
  plan: () => phrase("Plan"),
  bay: () => phrase("Bay time"),
  work: () => phrase("Work"),
  record: () => phrase("Record"),
  details: () => phrase("Details"),
  events: () => phrase("What happened, and corrections"),
  correct: () => phrase("Correction"),
};

const sheets: Record<string, () => string> = {
  found: () => phrase("as found"),
  trial: () => phrase("after the test spot"),
  work: () => phrase("from the work"),
};

const ruleScreens: Record<string, () => string> = {
  all: () => phrase("All rules"),
  try: () => phrase("Try the rules out"),
  hints: () => phrase("Hints from the record"),
  sets: () => phrase("Rules over time"),
};

function ofJob([id = "", stop = "inspect", ...rest]: string[]): string[] {
  const correction = id.includes("~") && stop !== "correct" ? [phrase("Correction")] : [];
  if (stop === "read") {
    const [sheet = "", panel = "", quantity] = rest;
    return [quantities.find((q) => q.id === quantity)?.title ?? "", `${panelName(panel)} ${sheets[sheet]?.() ?? ""}`.trim(), ...correction];
  }
  if (rest[0] === "fit") return [phrase("What fits the hours")];
  const screen = (jobScreens[stop] ?? (() => phrase("Job")))();
  return [...(rest[0] ? [panelName(rest[0])] : []), screen, ...correction];
}

function ofRules([part = "", ...rest]: string[]): string[] {
  if (part === "table") return [rest[0] ?? "", phrase("Rules")];
  if (part === "file") return [ofAddress(rest).name, phrase("Rules")];
  if (part === "set") return [phrase("set {hash}", { hash: (rest[0] ?? "").slice(0, 12) }), phrase("Rules")];
  return [...(ruleScreens[part] ? [ruleScreens[part]()] : []), phrase("Rules")];
}

// titleOf is what stands over the window, the screen first, so that it tells tabs and steps back apart.
export function titleOf([screen = "", ...rest]: string[], about: string): string {
  const said = () => {
    switch (screen) {
      case "job":
        return [...ofJob(rest), about];
      case "new":
        return [phrase("New job")];
      case "waiting":
        return [phrase("Waiting on this device")];
      case "class":
        return [phrase("Class room")];
      case "rules":
        return ofRules(rest);
    }
    return [phrase("Jobs")];
  };
  return [...said(), "Glossladder"].filter(Boolean).join(" · ");
}
