import type { Inspection } from "../wire/contract";
import { phrase } from "../words/phrase";
import { BoundedEntry } from "./bounded";
import { Choice, WordChoice } from "./choice";
import { NumberEntry } from "./entry";

export type Paint = NonNullable<NonNullable<Inspection["vehicle"]>["paint"]>;

// YearEntry asks when a vehicle was built, within the bounds of the contract.
export function YearEntry({ value, onSet }: { value: number | undefined; onSet: (year: number | undefined) => void }) {
  return <BoundedEntry label={phrase("Year it was built")} value={value} least={1885} most={2200} whole hint={phrase("Empty: not known.")} onSet={onSet} />;
}

// PaintEntry asks what the paint is. It serves the vehicle and a panel that differs.
export function PaintEntry({ paint, onSet, age = false }: { paint: Paint; onSet: (paint: Paint) => void; age?: boolean }) {
  return (
    <>
      <WordChoice
        label={phrase("Paint system")}
        fact="paint.system"
        prefix="PAINT_SYSTEM"
        value={paint.system}
        onPick={(system) => onSet({ ...paint, system })}
      />
      <WordChoice
        label={phrase("Softness")}
        fact="paint.softness"
        prefix="SOFTNESS"
        value={paint.softness}
        onPick={(softness) => onSet({ ...paint, softness })}
        hint={phrase("How readily it marks and corrects.")}
      />
      <WordChoice label={phrase("Shade")} fact="paint.shade" prefix="SHADE" value={paint.shade} onPick={(shade) => onSet({ ...paint, shade })} />
      <Choice
        label={phrase("Dulls under a step that should not dull it")}
        choices={[
          { value: "yes", says: phrase("yes") },
          { value: "no", says: phrase("no") },
          { value: "", says: phrase("not known") },
        ]}
        value={paint.haze_prone === undefined ? "" : paint.haze_prone ? "yes" : "no"}
        onPick={(v) => onSet({ ...paint, haze_prone: v === "" ? undefined : v === "yes" })}
      />
      {age && <NumberEntry fact="paint.age_years" value={paint.age_years} onSet={(age_years) => onSet({ ...paint, age_years })} />}
    </>
  );
}
