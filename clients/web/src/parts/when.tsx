import { useId } from "preact/hooks";
import { taken, typed } from "../words/clock";

type Props = { label: string; value: string | undefined; onSet: (time: string | undefined) => void; hint?: string; wrong?: string | undefined };

// When is a date and a time of the wall clock, entered as the device does it.
export function When({ label, value, onSet, hint, wrong }: Props) {
  const id = useId();
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="datetime-local"
        value={typed(value)}
        aria-invalid={!!wrong}
        aria-describedby={wrong || hint ? `${id}-hint` : undefined}
        onChange={(e) => onSet(taken(e.currentTarget.value))}
      />
      {(wrong || hint) && (
        <p id={`${id}-hint`} class={wrong ? "wrong" : "hint"} role={wrong ? "alert" : undefined}>
          {wrong || hint}
        </p>
      )}
    </div>
  );
}
