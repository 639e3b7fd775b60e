import type { Money, MoneySpan } from "../wire/contract";
import { locale } from "./locale";
import { phrase } from "./phrase";

// The CLDR's way of writing the usual currencies where the page is read most, without Intl, as figures are (see number.ts).
type Written = { symbols: Record<string, string>; put: (symbol: string, whole: string, cents: string) => string };
const before: Written["put"] = (symbol, whole, cents) => `${symbol}${apart(whole, ",")}.${cents}`;
const after: Written["put"] = (symbol, whole, cents) => `${apart(whole, ".")},${cents}\u00a0${symbol}`;
const european = { EUR: "€", GBP: "£" };
const american = { ...european, USD: "$" };
const usual: Record<string, Written> = {
  en: { symbols: american, put: before },
  "en-US": { symbols: american, put: before },
  "en-GB": { symbols: european, put: before },
  de: { symbols: american, put: after },
  "de-DE": { symbols: american, put: after },
};

// apart sets thousands apart.
const apart = (whole: string, mark: string): string => whole.replace(/\B(?=(\d{3})+$)/g, mark);

// written rounds to cents, half away from zero, as Intl does. Undefined: Intl writes it.
function written({ units = "0", nanos = 0, currency_code = "" }: Money): string | undefined {
  const { symbols = {}, put } = usual[locale()] ?? {};
  const symbol = symbols[currency_code];
  if (!symbol || !put || !/^\d{1,12}$/.test(units) || nanos < 0) return undefined;
  const cents = String(Number(units) * 100 + Math.round(nanos / 1e7)).padStart(3, "0");
  return put(symbol, cents.slice(0, -2), cents.slice(-2));
}

const formats = new Map<string, Intl.NumberFormat>();

// formatted hands an amount over digit by digit: it is never a binary fraction.
function formatted({ units = "0", nanos = 0, currency_code: currency = "" }: Money): string {
  const key = `${locale()} ${currency}`;
  const format = formats.get(key) ?? new Intl.NumberFormat(locale(), { style: "currency", currency });
  formats.set(key, format);
  const sign = nanos < 0 && !units.startsWith("-") ? "-" : "";
  return format.format(`${sign}${units}.${String(Math.abs(nanos)).padStart(9, "0")}` as `${number}`);
}

// money writes an amount as the page's locale does.
export const money = (m: Money | undefined): string => (m?.currency_code ? (written(m) ?? formatted(m)) : "");

export const moneyRange = (s: MoneySpan | undefined): string =>
  s ? phrase("{likely} ({low} to {high})", { likely: money(s.likely), low: money(s.low), high: money(s.high) }) : "";

// parsedMoney reads an amount that somebody typed, with a point or a comma before at most two digits. Undefined: it is none.
export function parsedMoney(text: string): Money | undefined {
  const found = /^(\d{1,9})(?:[.,](\d{1,2}))?$/.exec(text.trim());
  return found ? { units: found[1], nanos: Number((found[2] ?? "").padEnd(9, "0")) } : undefined;
}

// moneyTyped is an amount as it stands in an entry.
export const moneyTyped = (m: Money | undefined): string => (m ? `${m.units ?? "0"}${m.nanos ? `.${String(m.nanos).padStart(9, "0").slice(0, 2)}` : ""}` : "");
