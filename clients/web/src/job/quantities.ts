import { phrase } from "../words/phrase";

// Quantity is one scale that a spot is read on.
export type Quantity = {
  id: string;
  title: string;
  short: string;
  fact: string;
  film?: "total_um" | "clear_um";
  gloss?: "at60_gu" | "at20_gu" | "at85_gu" | "haze_hu";
};

// Their names are said when they are drawn, in the language of the page.
const names: Record<string, () => [title: string, short: string]> = {
  film: () => [phrase("Film, all layers together"), phrase("Film")],
  gloss60: () => [phrase("Gloss at 60°"), phrase("Gloss 60°")],
  gloss20: () => [phrase("Gloss at 20°"), phrase("Gloss 20°")],
  haze: () => [phrase("Haze by the meter"), phrase("Haze")],
  gloss85: () => [phrase("Gloss at 85°"), phrase("Gloss 85°")],
  clear: () => [phrase("Clear coat alone"), phrase("Clear alone")],
};

const quantity = (id: string, fact: string, on: Pick<Quantity, "film" | "gloss">): Quantity => ({
  id,
  fact,
  ...on,
  get title() {
    return names[id]?.()[0] ?? id;
  },
  get short() {
    return names[id]?.()[1] ?? id;
  },
});

export const quantities: Quantity[] = [
  quantity("film", "film.lowest_um", { film: "total_um" }),
  quantity("gloss60", "gloss.at60_gu", { gloss: "at60_gu" }),
  quantity("gloss20", "gloss.at20_gu", { gloss: "at20_gu" }),
  quantity("haze", "haze.meter_hu", { gloss: "haze_hu" }),
  quantity("gloss85", "gloss.at85_gu", { gloss: "at85_gu" }),
  quantity("clear", "film.clear_um", { film: "clear_um" }),
];
