import { locale } from "./locale";

// Setting up the first format takes a slow phone a tenth of a second. So none is set up twice, and figures of the usual size are
// written without one where the page is read most; that comes to the same (see browser/figures.test.mjs).
const numbers = new Map<string, Intl.NumberFormat>();
const marks: Record<string, string> = { en: ".", "en-GB": ".", "en-US": ".", de: ",", "de-DE": ",", "de-AT": "," };
const usual = 9_999; // beyond it thousands stand apart

// figure writes a number as the page's locale does, its thousands apart from 10 000 on.
export function figure(value: number, digits = 1): string {
  const to = locale();
  const mark = marks[to];
  return (mark && Math.abs(value) <= usual ? written(value, digits, mark) : formatted(value, digits, to)).replace("-", "−");
}

// written rounds the digits that stand there, half away from zero, as Intl does: 0.35 is 0.4.
function written(value: number, digits: number, mark: string): string {
  const size = Math.abs(value);
  const rounded = size < 1e-6 ? 0 : Number(`${Math.round(Number(`${size}e${digits}`))}e-${digits}`);
  return (value < 0 ? "-" : "") + String(rounded).replace(".", mark);
}

function formatted(value: number, digits: number, to: string): string {
  const key = `${to} ${digits}`;
  const format = numbers.get(key) ?? new Intl.NumberFormat(to, { maximumFractionDigits: digits, minimumFractionDigits: 0, useGrouping: "min2" });
  numbers.set(key, format);
  return format.format(Object.is(value, -0) ? 0 : value);
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

// besideUnit stands between a figure and its unit, and lets no line end between them.
export const besideUnit = "\u00a0";

// duration says minutes: 95 is "1 h 35 min", on one line. Both are symbols (ISO 80000-3), alike in every language.
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const h = Math.floor(whole / 60);
  const m = whole % 60;
  const said = h ? (m ? `${h} h ${m} min` : `${h} h`) : `${m} min`;
  return said.replaceAll(" ", besideUnit);
}

export type Spread = { n: number; mean: number; s?: number };

// spread sums up readings for the eye while they are typed: mean, and standard deviation from two on.
export function spread(values: number[]): Spread | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  if (n === 1) return { n, mean };
  return { n, mean, s: Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / (n - 1)) };
}
