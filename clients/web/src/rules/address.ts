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
