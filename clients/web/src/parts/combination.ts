import type { StepAdvice } from "../wire/contract";
import { figure } from "../words/number";
import { phrase } from "../words/phrase";
import { word } from "../words/word";

// combinationWords says what a step is worked with: "short orbital, polishing foam, polishing liquid".
export function combinationWords(c: StepAdvice["combination"]): string {
  return [word(c?.machine, "MACHINE_CLASS"), word(c?.pad, "PAD_CLASS"), word(c?.liquid, "LIQUID_CLASS")].filter(Boolean).join(", ");
}

// settingRows says how a step is run, line by line.
export function settingRows(s: StepAdvice["settings"]): [string, string][] {
  if (!s) return [];
  const rows: [string, string | undefined][] = [
    [phrase("speed"), word(s.speed, "SPEED_BAND")],
    [phrase("passes"), s.passes === undefined ? undefined : figure(s.passes)],
    [phrase("overlap"), s.overlap_pct === undefined ? undefined : `${figure(s.overlap_pct)} %`],
    [phrase("arm"), s.arm_cm_s === undefined ? undefined : `${figure(s.arm_cm_s)} cm/s`],
    [phrase("section"), s.section_pad_areas === undefined ? undefined : phrase("{n} {n|pad face|pad faces}", { n: s.section_pad_areas })],
    [phrase("liquid"), s.drops === undefined ? undefined : phrase("{n} {n|drop|drops} a section", { n: s.drops })],
    [phrase("clean the pad"), s.clean_every === undefined ? undefined : cleaning(s.clean_every)],
  ];
  return rows.filter((r): r is [string, string] => !!r[1]);
}

const cleaning = (n: number): string => (n === 1 ? phrase("every section") : phrase("every {n} sections", { n }));
