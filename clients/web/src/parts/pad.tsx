import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { factOf, outside } from "../facts";
import { figure, parsed, spread } from "../words/number";
import { big } from "../words/word";
import { Choice } from "./choice";

// How many readings make a spot, as the contract says of them; more are taken gladly.
const enough = 3;

type Props = {
  title: string;
  fact: string;
  spots: string[]; // names, in the order of measuring
  valuesOf: (spot: string) => number[];
  onSet: (spot: string, values: number[], did: string) => void;
  onUndo?: () => void;
  back: string;
};

// Pad takes readings one-handed: a large keypad under the thumb, the running mean above it, and from spot to spot without looking
// for anything. A keyboard works as well.
export function Pad({ title, fact, spots, valuesOf, onSet, onUndo, back }: Props) {
  const [more, name] = useState<string[]>([]);
  const all = [...spots, ...more.filter((m) => !spots.includes(m))];
  const [spot, pick] = useState(() => all.find((s) => valuesOf(s).length < enough) ?? all[0] ?? "a");
  const [typed, type] = useState("");
  const [wrong, complain] = useState("");
  const field = useRef<HTMLInputElement>(null);
  // Before it is drawn: whoever sees the pad may type, and no digit goes astray.
  useLayoutEffect(() => field.current?.focus({ preventScroll: true }), [spot]);
  const { unit = "", min, max } = factOf(fact);
  const values = valuesOf(spot);
  const number = parsed(typed);
  const seen = number === undefined || outside(fact, number) ? values : [...values, number];
  const sum = spread(seen);
  const next = all[all.indexOf(spot) + 1];

  const key = (k: string) => {
    complain("");
    type((t) => (k === "back" ? t.slice(0, -1) : k === "." && /[.,]/.test(t) ? t : t.length < 7 ? t + k : t));
  };
  const take = () => {
    if (number === undefined) {
      complain(typed === "" ? "Type a reading first." : "Digits, and a point or a comma.");
      return;
    }
    const complaint = outside(fact, number);
    complain(complaint);
    if (complaint) return;
    onSet(spot, [...values, number], `reading ${figure(number)} at ${spot}`);
    type("");
  };
  const onward = () => {
    if (typed !== "") take();
    if (wrong) return;
    if (next) pick(next);
    else {
      const letter = String.fromCharCode(97 + all.length);
      const fresh = all.includes(letter) ? `spot ${all.length + 1}` : letter;
      name([...more, fresh]);
      pick(fresh);
    }
  };

  return (
    <section class="pad" aria-label={title}>
      <Choice label="Spot" choices={all.map((s) => ({ value: s, says: `${s} · ${valuesOf(s).length}` }))} value={spot} onPick={pick} />
      <div class="pad-screen">
        <ul class="readings" aria-label={`Readings at ${spot}`}>
          {values.map((v, i) => (
            <li key={i}>
              <button
                type="button"
                aria-label={`Remove ${figure(v)}`}
                onClick={() => onSet(spot, values.toSpliced(i, 1), `removal of ${figure(v)} at ${spot}`)}
              >
                {figure(v, 2)} <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
          {values.length === 0 && <li class="hint">No reading yet</li>}
        </ul>
        <div class="pad-entry">
          <label>
            <span class="hidden">
              Reading at {spot}
              {unit && `, in ${unit}`}
            </span>
            <input
              ref={field}
              inputMode="none"
              autocomplete="off"
              value={typed}
              placeholder="—"
              aria-invalid={wrong !== ""}
              aria-describedby="pad-says"
              onInput={(e) => {
                complain("");
                type(e.currentTarget.value);
              }}
              onKeyDown={(e) => {
                if (e.key === "Enter") {
                  e.preventDefault();
                  take();
                }
              }}
            />
          </label>
          <span class="unit">{unit}</span>
        </div>
        <p id="pad-says" class={wrong ? "wrong" : "running"} role={wrong ? "alert" : undefined}>
          {wrong ||
            (sum
              ? `mean ${figure(sum.mean, 2)}${sum.s === undefined ? "" : `, spread ${figure(sum.s, 2)}`} · ${sum.n} of ${enough}${sum.n > enough ? "+" : ""}`
              : min === undefined
                ? ""
                : `${min} to ${max} ${unit}, at least ${enough} readings a spot`)}
        </p>
      </div>
      <div class="keys">
        {["7", "8", "9"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" aria-label="Delete last digit" onClick={() => key("back")}>
          ⌫
        </button>
        {["4", "5", "6"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" class={values.length >= enough ? "onward now" : "onward"} onClick={onward}>
          {next ? `${big(next)} next` : "New spot"}
        </button>
        {["1", "2", "3"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" class="take" onClick={take}>
          Take
        </button>
        <button type="button" onClick={() => key(".")} aria-label="Decimal point">
          .
        </button>
        <button type="button" onClick={() => key("0")}>
          0
        </button>
        <button type="button" class="small" onClick={onUndo} disabled={!onUndo}>
          Undo
        </button>
      </div>
      <a class="button quiet" href={back}>
        Done
      </a>
    </section>
  );
}
