import { useEffect, useId, useState } from "preact/hooks";
import { factOf, outside } from "../facts";
import { typed as asTyped, figure, parsed } from "../words/number";
import { phrase } from "../words/phrase";
import { big } from "../words/word";

type NumberProps = {
  label?: string;
  fact: string;
  value: number | undefined;
  onSet: (value: number | undefined) => void;
  refused?: string | undefined; // what the service says is wrong with it
  about?: string | undefined; // what it means, where its name does not say
  empty?: string; // what it means where nothing is entered
};

// NumberEntry is one figure with the bounds of its fact. What lies outside is told and not taken.
export function NumberEntry({ label, fact, value, onSet, refused = "", about, empty = phrase("not known") }: NumberProps) {
  const id = useId();
  const [text, set] = useState(value === undefined ? "" : asTyped(value));
  const [complaint, complain] = useState("");
  const wrong = complaint || refused;
  useEffect(() => {
    if (parsed(text) !== value) set(value === undefined ? "" : asTyped(value));
  }, [value]);
  const { unit, min, max, label: name } = factOf(fact);
  const type = (typed: string) => {
    set(typed);
    if (typed.trim() === "") {
      complain("");
      onSet(undefined);
      return;
    }
    const number = parsed(typed);
    const complaint = number === undefined ? phrase("Digits, and a point or a comma.") : outside(fact, number);
    complain(complaint);
    if (!complaint) onSet(number);
  };
  return (
    <div class="entry">
      <label for={id}>{label ?? big(name ?? fact)}</label>
      <div class="with-unit">
        <input
          id={id}
          inputMode="decimal"
          autocomplete="off"
          value={text}
          aria-invalid={wrong !== ""}
          aria-describedby={`${id}-hint`}
          onInput={(e) => type(e.currentTarget.value)}
        />
        {unit && <span aria-hidden="true">{unit}</span>}
      </div>
      <p id={`${id}-hint`} class={wrong ? "wrong" : "hint"} role={refused ? "alert" : undefined} lang={!complaint && refused ? "en" : undefined}>
        {wrong || (min === undefined || max === undefined ? "" : bounds(min, max, unit, empty))}
      </p>
      {about && <p class="hint">{about}</p>}
    </div>
  );
}

const bounds = (min: number, max: number, unit: string | undefined, empty: string): string =>
  unit ? phrase("in {unit}, {min} to {max}; empty: {empty}", { unit, min, max, empty }) : phrase("{min} to {max}; empty: {empty}", { min, max, empty });

type TextProps = { label: string; value: string; onSet: (value: string) => void; most: number; hint?: string; wrong?: string; lines?: number };

// TextEntry is a few words.
export function TextEntry({ label, value, onSet, most, hint = "", wrong = "", lines = 1 }: TextProps) {
  const id = useId();
  const says = wrong || hint;
  const about = says ? `${id}-hint` : undefined;
  const told = { id, maxLength: most, "aria-describedby": about, "aria-invalid": wrong !== "", value };
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      {lines > 1 ? (
        <textarea {...told} rows={lines} onInput={(e) => onSet(e.currentTarget.value)} />
      ) : (
        <input {...told} autocomplete="off" onInput={(e) => onSet(e.currentTarget.value)} />
      )}
      {says && (
        <p id={about} class={wrong ? "wrong" : "hint"} role={wrong ? "alert" : undefined}>
          {says}
        </p>
      )}
    </div>
  );
}

type SeverityProps = { label: string; value: number | undefined; onSet: (value: number | undefined) => void };

// Severity is graded from 0 to 5 in half steps.
export function Severity({ label, value, onSet }: SeverityProps) {
  const { min = 0, max = 5, step = 0.5 } = factOf("defect.severity");
  // The first tap on "less" grades it as none at all, which is not the same as not graded.
  const move = (by: number) => onSet(Math.min(max, Math.max(min, (value ?? min) + by)));
  return (
    <div class="severity" role="group" aria-label={label}>
      <span class="severity-label">{label}</span>
      <button
        type="button"
        aria-label={value === undefined ? phrase("{mark}: none, {least}", { mark: label, least: min }) : phrase("{mark}: {step} less", { mark: label, step })}
        onClick={() => move(-step)}
        disabled={value !== undefined && value <= min}
      >
        {value === undefined ? figure(min) : "−"}
      </button>
      <output aria-live="polite">{value === undefined ? phrase("not graded") : phrase("{value} of {most}", { value, most: max })}</output>
      <button
        type="button"
        aria-label={phrase("{mark}: {step} more", { mark: label, step })}
        onClick={() => move(step)}
        disabled={value !== undefined && value >= max}
      >
        +
      </button>
      <span class="severity-bar" aria-hidden="true">
        {Array.from({ length: max }, (_, i) => (
          <i key={i} class={value !== undefined && value >= i + 1 ? "full" : value !== undefined && value > i ? "half" : ""} />
        ))}
      </span>
    </div>
  );
}
