import { useEffect, useId, useState } from "preact/hooks";
import type { Fixed } from "../job/plan";
import { BoundedEntry } from "../parts/bounded";
import { Choice } from "../parts/choice";
import { moneyTyped, parsedMoney } from "../words/money";
import { phrase } from "../words/phrase";

type Props = { fixed: Fixed; onFix: (fixed: Fixed) => void; currency: string | undefined; wrong: string | undefined };

// FixedEntry asks what there is for the job: hours or a price.
export function FixedEntry({ fixed, onFix, currency, wrong }: Props) {
  const [by, choose] = useState("hours" in fixed ? "hours" : "price");
  useEffect(() => choose("hours" in fixed ? "hours" : "price"), [fixed]); // a point of the curve is chosen by its hours
  return (
    <>
      <Choice
        label={phrase("What is fixed")}
        choices={[
          { value: "hours", says: phrase("hours") },
          { value: "price", says: phrase("a price") },
        ]}
        value={by}
        onPick={choose}
      />
      {by === "hours" ? (
        <BoundedEntry
          label={phrase("Hours for the whole job")}
          value={"hours" in fixed ? Math.round(fixed.hours * 100) / 100 : undefined}
          least={0.1}
          most={100}
          unit="h"
          hint={phrase("of one person’s work")}
          wrong={wrong}
          onSet={(hours) => hours !== undefined && onFix({ hours })}
        />
      ) : (
        <PriceEntry fixed={fixed} onFix={onFix} currency={currency} wrong={wrong} />
      )}
    </>
  );
}

function PriceEntry({ fixed, onFix, currency, wrong }: Props) {
  const id = useId();
  const [text, set] = useState("price" in fixed ? moneyTyped(fixed.price) : "");
  const [complaint, complain] = useState("");
  const take = () => {
    const price = parsedMoney(text);
    complain(price || text.trim() === "" ? "" : phrase("Digits, and at most two after a point or a comma."));
    if (price) onFix({ price });
  };
  const says = complaint || wrong;
  return (
    <div class="entry">
      <label for={id}>{phrase("Price for the whole job")}</label>
      <div class="with-unit">
        <input
          id={id}
          inputMode="decimal"
          autocomplete="off"
          value={text}
          aria-invalid={!!says}
          aria-describedby={`${id}-hint`}
          onInput={(e) => set(e.currentTarget.value)}
          onChange={take}
        />
        {currency && <span>{currency}</span>}
      </div>
      <p id={`${id}-hint`} class={says ? "wrong" : "hint"} role={says ? "alert" : undefined}>
        {says || phrase("in the currency of the shop’s catalogue")}
      </p>
    </div>
  );
}
