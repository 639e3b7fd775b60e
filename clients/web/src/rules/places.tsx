import { to } from "../route";

// addressOf is where the page shows a file, at a line if that is known.
export const addressOf = (file: string | undefined, line?: number): string => to("rules", "file", ...(file ?? "").split("/"), ...(line ? [String(line)] : []));

// ofAddress takes it apart again. A file in cases/ may be called 12, so the name comes first.
export function ofAddress(parts: string[]): { name: string; line?: number } {
  const least = parts[0] === "cases" ? 2 : 1;
  const end = parts[parts.length - 1] ?? "";
  if (parts.length > least && /^\d+$/.test(end)) return { name: parts.slice(0, -1).join("/"), line: Number(end) };
  return { name: parts.join("/") };
}

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
