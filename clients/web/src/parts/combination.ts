import type { StepAdvice } from "../wire/contract";
import { figure } from "../words/number";
import { word } from "../words/word";

// combinationWords says what a step is worked with: "short orbital, polishing foam, polishing liquid".
export function combinationWords(c: StepAdvice["combination"]): string {
  return [word(c?.machine, "MACHINE_CLASS"), word(c?.pad, "PAD_CLASS"), word(c?.liquid, "LIQUID_CLASS")].filter(Boolean).join(", ");
}

// settingRows says how a step is run, line by line.
export function settingRows(s: StepAdvice["settings"]): [string, string][] {
  if (!s) return [];
  const rows: [string, string | undefined][] = [
    ["speed", word(s.speed, "SPEED_BAND")],
    ["passes", s.passes === undefined ? undefined : figure(s.passes)],
    ["overlap", s.overlap_pct === undefined ? undefined : `${figure(s.overlap_pct)} %`],
    ["arm", s.arm_cm_s === undefined ? undefined : `${figure(s.arm_cm_s)} cm/s`],
    ["section", s.section_pad_areas === undefined ? undefined : `${figure(s.section_pad_areas)} pad faces`],
    ["liquid", s.drops === undefined ? undefined : `${figure(s.drops)} drops a section`],
    ["clean the pad", s.clean_every === undefined ? undefined : s.clean_every === 1 ? "every section" : `every ${figure(s.clean_every)} sections`],
  ];
  return rows.filter((r): r is [string, string] => !!r[1]);
}
