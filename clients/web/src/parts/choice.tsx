import { useId } from "preact/hooks";
import { choicesOf } from "../facts";
import { phrase } from "../words/phrase";
import { big, given, word } from "../words/word";

type Props = {
  label: string;
  choices: { value: string; says: string }[];
  value: string;
  onPick: (value: string) => void;
  hint?: string | undefined;
  wrong?: string | undefined; // what the service says is wrong with it
};

// Choice is one of a few, as large chips over real radio buttons.
export function Choice({ label, choices, value, onPick, hint, wrong }: Props) {
  const name = useId();
  return (
    <fieldset class="choice" aria-invalid={wrong ? true : undefined}>
      <legend>{label}</legend>
      {wrong && (
        <p class="wrong" role="alert" lang="en">
          {wrong}
        </p>
      )}
      {hint && <p class="hint">{hint}</p>}
      <div class="chips">
        {choices.map((c) => (
          <label key={c.value} class="chip">
            <input type="radio" name={name} value={c.value} checked={c.value === value} onChange={() => onPick(c.value)} />
            <span>{c.says}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

type WordProps<T extends string> = {
  label: string;
  fact: string;
  prefix: string;
  value: T | undefined;
  onPick: (value: T | undefined) => void;
  open?: string;
  hint?: string;
};

// WordChoice is a choice among the words of a fact. "Not known" is a choice of its own and the first state of every one.
export function WordChoice<T extends string>({ label, fact, prefix, value, onPick, open = phrase("not known"), hint }: WordProps<T>) {
  const choices = choicesOf(fact, prefix)
    .filter((v) => word(v, prefix) !== open)
    .map((v) => ({ value: v, says: word(v, prefix) }));
  return (
    <Choice
      label={label}
      hint={hint}
      choices={[...choices, { value: "", says: open }]}
      value={given(value) ? value : ""}
      onPick={(v) => onPick(v === "" ? undefined : (v as T))}
    />
  );
}

type YesNoProps = { label: string; value: boolean | undefined; onPick: (value: boolean | undefined) => void };

// YesNo is yes, no, or not said.
export function YesNo({ label, value, onPick }: YesNoProps) {
  const choices = [
    { value: "yes", says: phrase("yes") },
    { value: "no", says: phrase("no") },
    { value: "", says: phrase("not said") },
  ];
  return (
    <Choice
      label={big(label)}
      choices={choices}
      value={value === undefined ? "" : value ? "yes" : "no"}
      onPick={(v) => onPick(v === "" ? undefined : v === "yes")}
    />
  );
}
