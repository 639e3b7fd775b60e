import { named, phrase } from "../words/phrase";
import { token, tokensOf, word } from "../words/word";

// Marks of our own: meaning is told by shape and by the word beside it; colour only helps.

const strength: Record<string, number> = { finish: 1, polish: 2, cut: 3 };

// LadderMark draws a ladder: one row for each step, and as many bars in a row as the step is strong.
export function LadderMark({ ladder }: { ladder: string | undefined }) {
  const steps = tokensOf(ladder);
  return (
    <span class="ladder">
      {steps.length === 0 && <span class="rung none">{phrase("no step")}</span>}
      {steps.map((step) => (
        <span key={step} class={`rung ${step}`}>
          <Bars n={strength[step] ?? 0} />
          {named("STEP", step)}
        </span>
      ))}
    </span>
  );
}

export function StepMark({ step }: { step: string | undefined }) {
  const name = token(step, "STEP");
  return (
    <span class={`rung ${name}`}>
      {strength[name] && <Bars n={strength[name]} />}
      {name ? named("STEP", name) : phrase("no rule tells")}
    </span>
  );
}

function Bars({ n }: { n: number }) {
  return (
    <svg class="bars" viewBox="0 0 18 14" width="18" height="14" aria-hidden="true">
      {Array.from({ length: n }, (_, i) => (
        <rect key={i} x={i * 6 + 1} y={10 - i * 4} width="4" height={4 + i * 4} fill="currentColor" />
      ))}
    </svg>
  );
}

type Shape = "go" | "half" | "wait" | "done" | "away" | "stop" | "care" | "danger" | "note" | "up" | "down" | "again";

const paths: Record<Shape, string> = {
  go: "M5 3l9 6-9 6z",
  half: "M9 2a7 7 0 100 14zM9 2v14",
  wait: "M5 3h3v12H5zM10 3h3v12h-3z",
  done: "M2 9l5 5 9-10-2-2-7 8-3-3z",
  away: "M2 7h8V3l6 6-6 6v-4H2z",
  stop: "M6 2h6l4 4v6l-4 4H6l-4-4V6z",
  care: "M9 1l8 8-8 8-8-8z",
  danger: "M9 1l8 15H1z",
  note: "M9 2a7 7 0 110 14A7 7 0 019 2z",
  up: "M9 2l6 7h-4v7H7V9H3z",
  down: "M9 16l6-7h-4V2H7v7H3z",
  again: "M9 3a6 6 0 105.6 8.2l-2.3-.8A3.6 3.6 0 119 5.4V8l5-4-5-4z",
};

// Mark is a shape with its word. The word is always there.
export function Mark({ shape, children }: { shape: Shape; children: string }) {
  return (
    <span class={`mark ${shape}`}>
      <svg viewBox="0 0 18 18" width="18" height="18" aria-hidden="true">
        <path d={paths[shape]} fill="currentColor" />
      </svg>
      {children}
    </span>
  );
}

const states: Record<string, [Shape, () => string]> = {
  READY: ["go", () => phrase("ready for the test spot")],
  PREPARE: ["half", () => phrase("prepare first")],
  WAIT: ["wait", () => phrase("wait")],
  NOTHING_TO_DO: ["done", () => phrase("nothing to do")],
  REFER: ["away", () => phrase("for another trade")],
  STOP: ["stop", () => phrase("no machine work")],
};

export function StateMark({ state }: { state: string | undefined }) {
  const [shape, says] = states[(state ?? "").replace("PANEL_STATE_", "")] ?? ["note" as const, () => phrase("not judged")];
  return <Mark shape={shape}>{says()}</Mark>;
}

const verdicts: Record<string, Shape> = { accept: "done", adjust: "care", "step up": "up", "step down": "down", refine: "half", repeat: "again", stop: "stop" };

export function VerdictMark({ kind }: { kind: string | undefined }) {
  return <Mark shape={verdicts[token(kind, "VERDICT_KIND")] ?? "note"}>{word(kind, "VERDICT_KIND") || phrase("not judged")}</Mark>;
}
