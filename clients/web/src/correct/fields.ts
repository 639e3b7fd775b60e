import { figure } from "../words/number";
import { named, phrase } from "../words/phrase";
import { panelName, small } from "../words/word";
import { times } from "./kinds";

// What the fields of an event are called on the page. Those that only hold others add nothing to their names.
const names: Record<string, () => string> = {
  vehicle: () => "",
  goal: () => "",
  climate: () => "",
  label: () => small(phrase("Name of the vehicle")),
  size: () => phrase("size"),
  kept: () => phrase("where it stands"),
  level: () => phrase("goal"),
  protection: () => phrase("protection"),
  paint: () => phrase("paint"),
  system: () => small(phrase("Paint system")),
  softness: () => phrase("softness"),
  shade: () => phrase("shade"),
  haze_prone: () => small(phrase("Dulls under a step that should not dull it")),
  air_c: () => phrase("air temperature"),
  humidity_pct: () => phrase("humidity"),
  panel_c: () => phrase("panel temperature"),
  panel_id: () => small(phrase("Panel")),
  substrate: () => phrase("substrate"),
  clean: () => small(phrase("Washed, decontaminated and dry")),
  taped: () => small(phrase("Edges, trim, badges and body lines taped")),
  in_sun: () => small(phrase("In direct sun")),
  edge_or_line: () => small(phrase("An edge, body line or raised trim in the area")),
  sensor_behind: () => small(phrase("A sensor or camera behind the paint")),
  repaint_known: () => small(phrase("Known to have been repainted")),
  cured_days: () => phrase("days since repaint"),
  film_taken_um: () => phrase("film taken before"),
  step: () => phrase("step"),
  state: () => phrase("how far it was"),
  minutes: () => phrase("minutes"),
  sections_done: () => phrase("sections"),
  time: () => phrase("when it was read"),
  changed: () => phrase("change"),
  fresh_section: () => small(phrase("Worked on a section of its own")),
  panel_wiped: () => small(phrase("Oils and fillers wiped away before reading")),
  trails_left: () => phrase("trails left"),
  wipe_off: () => phrase("wipe-off"),
  pad_loaded: () => small(phrase("The pad was loaded")),
  color_transfer: () => phrase("colour on the pad"),
  note: () => phrase("note"),
};

const units: [RegExp, string][] = [
  [/_um$/, "µm"],
  [/_gu$/, "GU"],
  [/_c$/, "°C"],
  [/(_min|^minutes)$/, "min"],
  [/_pct$/, "%"],
  [/_m2$/, "m²"],
];

// fieldName says what a field is called; one that the page has no name for keeps that of the contract, without its unit.
export const fieldName = (key: string): string => names[key]?.() ?? key.replace(/_(um|gu|c|min|pct|m2)$/, "").replaceAll("_", " ");

// fieldValue says what a field holds, a number with its unit.
export function fieldValue(value: unknown, key: string): string {
  if (value === true) return phrase("yes");
  if (value === false) return phrase("no");
  if (typeof value === "number") return [figure(value, 2), units.find(([of]) => of.test(key))?.[1]].filter(Boolean).join(" ");
  const text = String(value ?? "");
  if (key === "panel_id") return panelName(text);
  if (key === "time") return times()[text] ?? text;
  return /^[A-Z][A-Z0-9]*_[A-Z0-9_]+$/.test(text) ? contractWord(text, key) : text;
}

// contractWord says a word of the contract, which begins with its kind: STEP_STATE_LEFT_OUT is "left out".
function contractWord(text: string, key: string): string {
  const parts = text.split("_");
  for (let i = 1; i < parts.length; i++) {
    const english = parts.slice(i).join(" ").toLowerCase();
    const said = named(parts.slice(0, i).join("_"), english);
    if (said !== english) return said;
  }
  return text
    .toLowerCase()
    .replace(new RegExp(`^.*?${key.replace(/d$/, "")}_`), "")
    .replaceAll("_", " ");
}
