import { phrase } from "../words/phrase";
import { Choice } from "./choice";

type Props = { label: string; value: boolean; onPick: (value: boolean) => void; hint?: string };

// YesOrNo is a choice that is always made one way or the other.
export function YesOrNo({ label, value, onPick, hint }: Props) {
  const choices = [
    { value: "yes", says: phrase("yes") },
    { value: "no", says: phrase("no") },
  ];
  return <Choice label={label} hint={hint} choices={choices} value={value ? "yes" : "no"} onPick={(v) => onPick(v === "yes")} />;
}
