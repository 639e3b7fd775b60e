import type { Money, MoneySpan } from "../wire/contract";
import { phrase } from "./phrase";

const formats = new Map<string, Intl.NumberFormat>();

function formatOf(currency: string): Intl.NumberFormat {
  const format = formats.get(currency) ?? new Intl.NumberFormat(undefined, { style: "currency", currency });
  formats.set(currency, format);
  return format;
}

// money writes an amount as the device's locale does. It is handed over digit by digit: an amount is never a binary fraction.
export function money(m: Money | undefined): string {
  if (!m?.currency_code) return "";
  const digits = `${m.units ?? "0"}.${String(m.nanos ?? 0).padStart(9, "0")}` as `${number}`;
  return formatOf(m.currency_code).format(digits);
}

export const moneyRange = (s: MoneySpan | undefined): string =>
  s ? phrase("{likely} ({low} to {high})", { likely: money(s.likely), low: money(s.low), high: money(s.high) }) : "";

// parsedMoney reads an amount that somebody typed, with a point or a comma before at most two digits. Undefined: it is none.
export function parsedMoney(text: string): Money | undefined {
  const found = /^(\d{1,9})(?:[.,](\d{1,2}))?$/.exec(text.trim());
  return found ? { units: found[1], nanos: Number((found[2] ?? "").padEnd(9, "0")) } : undefined;
}

// moneyTyped is an amount as it stands in an entry.
export const moneyTyped = (m: Money | undefined): string => (m ? `${m.units ?? "0"}${m.nanos ? `.${String(m.nanos).padStart(9, "0").slice(0, 2)}` : ""}` : "");
