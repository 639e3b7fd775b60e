import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { factOf, outside } from "../facts";
import { decimalMark, figure, parsed, type Spread, spread } from "../words/number";
import { named, phrase } from "../words/phrase";
import { big } from "../words/word";
import { Choice } from "./choice";

// How many readings make a spot, as the contract says of them; more are taken gladly.
const enough = 3;

function running({ n, mean, s }: Spread): string {
  const count = { count: n > enough ? `${n}+` : String(n), enough };
  if (s === undefined) return phrase("mean {mean} · {count} of {enough}", { ...count, mean: figure(mean, 2) });
  return phrase("mean {mean}, spread {spread} · {count} of {enough}", { ...count, mean: figure(mean, 2), spread: figure(s, 2) });
}

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
  const nameOf = (s: string) => named("SPOT", s);
  const at = { spot: nameOf(spot) };

  const key = (k: string) => {
    complain("");
    type((t) => (k === "back" ? t.slice(0, -1) : /[.,]/.test(k) && /[.,]/.test(t) ? t : t.length < 7 ? t + k : t));
  };
  const take = () => {
    if (number === undefined) {
      complain(typed === "" ? phrase("Type a reading first.") : phrase("Digits, and a point or a comma."));
      return;
    }
    const complaint = outside(fact, number);
    complain(complaint);
    if (complaint) return;
    onSet(spot, [...values, number], phrase("reading {value} at {spot}", { ...at, value: number }));
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
      <Choice label={phrase("Spot")} choices={all.map((s) => ({ value: s, says: `${nameOf(s)} · ${valuesOf(s).length}` }))} value={spot} onPick={pick} />
      <div class="pad-screen">
        <ul class="readings" aria-label={phrase("Readings at {spot}", at)}>
          {values.map((v, i) => (
            <li key={i}>
              <button
                type="button"
                aria-label={phrase("Remove {what}", { what: figure(v) })}
                onClick={() => onSet(spot, values.toSpliced(i, 1), phrase("removal of {value} at {spot}", { ...at, value: v }))}
              >
                {figure(v, 2)} <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
          {values.length === 0 && <li class="hint">{phrase("No reading yet")}</li>}
        </ul>
        <div class="pad-entry">
          <label>
            <span class="hidden">{unit ? phrase("Reading at {spot}, in {unit}", { ...at, unit }) : phrase("Reading at {spot}", at)}</span>
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
              ? running(sum)
              : min === undefined || max === undefined
                ? ""
                : phrase("{min} to {max} {unit}, at least {enough} readings a spot", { min, max, unit, enough }))}
        </p>
      </div>
      <div class="keys">
        {["7", "8", "9"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" aria-label={phrase("Delete last digit")} onClick={() => key("back")}>
          ⌫
        </button>
        {["4", "5", "6"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" class={values.length >= enough ? "onward now" : "onward"} onClick={onward}>
          {next ? phrase("{spot} next", { spot: big(nameOf(next)) }) : phrase("New spot")}
        </button>
        {["1", "2", "3"].map((k) => (
          <button key={k} type="button" onClick={() => key(k)}>
            {k}
          </button>
        ))}
        <button type="button" class="take" onClick={take}>
          {phrase("Take")}
        </button>
        <button type="button" onClick={() => key(decimalMark())} aria-label={phrase("Decimal point")}>
          {decimalMark()}
        </button>
        <button type="button" onClick={() => key("0")}>
          0
        </button>
        <button type="button" class="small" onClick={onUndo} disabled={!onUndo}>
          {phrase("Undo")}
        </button>
      </div>
      <a class="button done" href={back}>
        {phrase("Done")}
      </a>
    </section>
  );
}
