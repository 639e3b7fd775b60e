import { useEffect, useId, useState } from "preact/hooks";
import { figure, parsed } from "../words/number";
import { phrase } from "../words/phrase";

type Props = {
  label: string;
  value: number | undefined;
  least: number;
  most: number;
  unit?: string;
  whole?: boolean;
  hint?: string;
  wrong?: string | undefined; // what the service says is wrong with it
  onSet: (value: number | undefined) => void;
};

// BoundedEntry is one figure within bounds of the contract. It is taken when the entry is left or Enter is pressed, since something
// is asked anew for each value; what lies outside is told and not taken.
export function BoundedEntry({ label, value, least, most, unit, whole, hint, wrong, onSet }: Props) {
  const id = useId();
  const [text, set] = useState(value === undefined ? "" : String(value));
  const [complaint, complain] = useState("");
  useEffect(() => {
    if (parsed(text) !== value) set(value === undefined ? "" : String(value));
  }, [value]);
  const bound = (n: number) => (whole ? String(n) : figure(n, 2)); // a year has no thousands to part
  const take = (typed: string) => {
    if (typed.trim() === "") {
      complain("");
      onSet(undefined);
      return;
    }
    const number = parsed(typed);
    const fits = number !== undefined && number >= least && number <= most && (!whole || Number.isInteger(number));
    complain(fits ? "" : phrase("A number from {least} to {most}.", { least: bound(least), most: bound(most) }));
    if (fits) onSet(number);
  };
  const says = complaint || wrong || "";
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      <div class="with-unit">
        <input
          id={id}
          inputMode={whole ? "numeric" : "decimal"}
          autocomplete="off"
          value={text}
          aria-invalid={says !== ""}
          aria-describedby={says || hint ? `${id}-hint` : undefined}
          onInput={(e) => set(e.currentTarget.value)}
          onChange={(e) => take(e.currentTarget.value)}
        />
        {unit && <span>{unit}</span>}
      </div>
      {(says || hint) && (
        <p id={`${id}-hint`} class={says ? "wrong" : "hint"} role={says ? "alert" : undefined}>
          {says || hint}
        </p>
      )}
    </div>
  );
}
