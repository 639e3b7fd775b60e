import { locale } from "./locale";

const formats = new Map<string, Intl.NumberFormat>();

// figure writes a number as the page's locale does, its thousands apart from 10 000 on.
export function figure(value: number, digits = 1): string {
  const key = `${locale()} ${digits}`;
  const format = formats.get(key) ?? new Intl.NumberFormat(locale(), { maximumFractionDigits: digits, minimumFractionDigits: 0, useGrouping: "min2" });
  formats.set(key, format);
  return format.format(Object.is(value, -0) ? 0 : value).replace("-", "−");
}

export const signed = (value: number, digits = 1): string => (value > 0 ? `+${figure(value, digits)}` : figure(value, digits));

// decimalMark stands between whole and part, as the page's locale writes it.
export const decimalMark = (): string => figure(1.5).charAt(1);

// typed writes a number as somebody would type it: every digit it has, and nothing between thousands.
export const typed = (value: number): string => String(value).replace(".", decimalMark());

// parsed reads what somebody typed, with a point or a comma. Undefined: it is no number.
export function parsed(text: string): number | undefined {
  const plain = text.trim().replace("−", "-").replace(",", ".");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}

// duration says minutes: 95 is "1 h 35 min". Both are symbols (ISO 80000-3), alike in every language.
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const h = Math.floor(whole / 60);
  const m = whole % 60;
  return h ? (m ? `${h} h ${m} min` : `${h} h`) : `${m} min`;
}

// day says the day of a time, and moment the minute of it too.
export const day = (time: string | undefined): string => (time ? new Intl.DateTimeFormat(locale(), { dateStyle: "medium" }).format(new Date(time)) : "");
export const moment = (time: string | undefined): string =>
  time ? new Intl.DateTimeFormat(locale(), { dateStyle: "medium", timeStyle: "short" }).format(new Date(time)) : "";

export type Spread = { n: number; mean: number; s?: number };

// spread sums up readings for the eye while they are typed: mean, and standard deviation from two on.
export function spread(values: number[]): Spread | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  if (n === 1) return { n, mean };
  return { n, mean, s: Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / (n - 1)) };
}
