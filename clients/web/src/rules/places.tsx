import { to } from "../route";
import { addressOf } from "./address";

// Place leads to a line of a file.
export function Place({ file, line, column }: { file: string | undefined; line?: number; column?: number }) {
  return (
    <a class="place" href={addressOf(file, line)}>
      {[file, line || undefined, line ? column || undefined : undefined].filter((v) => v !== undefined).join(":")}
    </a>
  );
}

// RuleName leads to a rule on the screen of its table.
export function RuleName({ table, id }: { table: string | undefined; id: string | undefined }) {
  return <a href={to("rules", "table", table ?? "", id ?? "")}>{id}</a>;
}
