import { useStore } from "../device/store";
import { factOf, facts } from "../facts";
import type { FactInfo, Inspection } from "../wire/contract";
import { phrase } from "../words/phrase";
import { big } from "../words/word";
import { Choice } from "./choice";
import { NumberEntry } from "./entry";

export type Own = NonNullable<Inspection["shop"]>;
const prefix = "shop.";

type Props = {
  heading: string;
  values: Own | undefined;
  open: string; // what it means where nothing is said
  onSet: (label: string, name: string, values: Own) => void;
  wrong?: (name: string) => string | undefined;
};

// OwnFacts asks for the facts that the shop's rule folder declares, as it declares them. Where it declares none, there is nothing.
export function OwnFacts({ heading, values = {}, open, onSet, wrong = () => undefined }: Props) {
  const schema = useStore(facts);
  const declared = [...(schema?.byName.values() ?? [])].filter((f) => f.name?.startsWith(prefix));
  const names = declared.map((f) => f.name?.slice(prefix.length) ?? "");
  const givenUp = schema ? Object.keys(values).filter((name) => !names.includes(name)) : [];
  if (declared.length === 0 && givenUp.length === 0) return null;
  const set = (label: string, name: string, value: Own[string] | undefined) => {
    const { [name]: _, ...others } = values;
    onSet(label, name, value === undefined ? others : { ...others, [name]: value });
  };
  return (
    <section class="own-facts" aria-label={heading}>
      <h3>{heading}</h3>
      {declared.map((f, i) => {
        const name = names[i] ?? "";
        const label = big(factOf(f.name ?? "").label ?? name);
        return <One key={name} fact={f} label={label} value={values[name]} open={open} wrong={wrong(name)} onSet={(v) => set(label, name, v)} />;
      })}
      {givenUp.map((name) => (
        <div key={name} class="entry">
          <p class={wrong(name) ? "wrong" : "hint"} role={wrong(name) ? "alert" : undefined}>
            {wrong(name) ?? phrase("{name}: {value}. The shop no longer asks for it.", { name, value: plainly(values[name]) })}
          </p>
          <button type="button" class="quiet" onClick={() => set(name, name, undefined)}>
            {phrase("Remove {what}", { what: name })}
          </button>
        </div>
      ))}
    </section>
  );
}

function plainly(value: Own[string] | undefined): string {
  return typeof value === "boolean" ? (value ? phrase("yes") : phrase("no")) : String(value);
}

type OneProps = {
  fact: FactInfo;
  label: string;
  value: Own[string] | undefined;
  open: string;
  wrong: string | undefined;
  onSet: (value: Own[string] | undefined) => void;
};

function One({ fact, label, value, open, wrong, onSet }: OneProps) {
  if (fact.kind === "VALUE_KIND_NUMBER")
    return (
      <NumberEntry
        fact={fact.name ?? ""}
        label={label}
        value={typeof value === "number" ? value : undefined}
        onSet={onSet}
        refused={wrong}
        about={fact.meaning}
        empty={open}
      />
    );
  const flag = fact.kind === "VALUE_KIND_FLAG";
  const choices = flag
    ? [
        { value: "true", says: phrase("yes") },
        { value: "false", says: phrase("no") },
      ]
    : (fact.words ?? []).map((w) => ({ value: w, says: w.replaceAll("-", " ") }));
  return (
    <Choice
      label={label}
      hint={fact.meaning}
      choices={[...choices, { value: "", says: open }]}
      value={value === undefined ? "" : String(value)}
      onPick={(v) => onSet(v === "" ? undefined : flag ? v === "true" : v)}
      wrong={wrong}
    />
  );
}
