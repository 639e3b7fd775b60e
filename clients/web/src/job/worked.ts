import type { Job, JobEvent, JobPanel } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big, given, ladderWords, stepsOf, word } from "../words/word";
import { isPlanned } from "./ticks";

const hasEnded = (job: Job): boolean => ["JOB_STAGE_FINISHED", "JOB_STAGE_HANDED_OVER", "JOB_STAGE_CANCELLED"].includes(job.stage ?? "");

const stepsIn = (panel: JobPanel, ...states: string[]) => (panel.steps ?? []).filter((s) => states.includes(s.state ?? "")).map((s) => word(s.step, "STEP"));

// workSays is what was done on a panel.
export function workSays(job: Job, panel: JobPanel): string {
  const done = stepsIn(panel, "STEP_STATE_DONE");
  const open = stepsIn(panel, "STEP_STATE_OPEN", "STEP_STATE_UNDER_WAY");
  const goesOn = open.length > 0 && !hasEnded(job);
  if (done.length) {
    const said = big(done.reduce((before, next) => phrase("{before}, then {next}", { before, next })));
    return goesOn ? phrase("{done}; not finished yet", { done: said }) : said;
  }
  if (goesOn) return phrase("planned: {ladder}", { ladder: ladderWords(panel.ladder) });
  if (given(panel.ladder) && stepsOf(panel.ladder).length === 0) return phrase("nothing: left alone");
  if (hasEnded(job)) return phrase("not worked by machine");
  return isPlanned(job) ? phrase("not in the plan") : phrase("nothing yet");
}

// ladderOf is the ladder that holds on a panel: that of the plan or, before there is one, the one that test spots have proven.
export const ladderOf = (job: Job, { ladder, verdict }: JobPanel): string | undefined =>
  given(ladder) ? ladder : verdict?.proven && !isPlanned(job) ? verdict.ladder : undefined;

export const isProven = ({ verdict }: JobPanel, ladder: string | undefined): boolean => !!verdict?.proven && verdict.ladder === ladder;

// whyOf is why a panel gets a ladder, or what is advised where it has none. A reason stands behind what it was given for, and nothing else.
export function whyOf(panel: JobPanel, ladder: string | undefined): string {
  const { verdict, advice } = panel;
  const advised = () => [...(advice?.defects ?? []).map((d) => d.reason), advice?.ladder_reason];
  const said = isProven(panel, ladder) ? [verdict?.reason] : !ladder || ladder === advice?.ladder ? advised() : [];
  return [...new Set(said.flatMap((r) => (r?.because ? [r.because] : [])))].join(" ");
}

// leftSays is what was left out on a panel, and why, as the event that holds tells it.
export function leftSays(panel: JobPanel, events: JobEvent[]): string[] {
  return stepsIn(panel, "STEP_STATE_LEFT_OUT").map((step) => {
    const holds = (e: JobEvent) =>
      e.progress?.panel_id === panel.panel_id && word(e.progress?.step, "STEP") === step && (!e.corrected_by || e.corrected_by === "0");
    const why = events.findLast(holds)?.progress?.note;
    return why ? phrase("{step} was left out: {why}", { step: big(step), why }) : phrase("{step} was left out.", { step: big(step) });
  });
}
