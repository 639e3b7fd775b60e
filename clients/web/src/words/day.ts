import { locale } from "./locale";

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const two = (n: number): string => String(n).padStart(2, "0");

// The medium dates of the Unicode CLDR, written without Intl where the page is read most, as figures are (see number.ts).
type Written = (year: number, month: number, day: number) => string;
const american: Written = (y, m, d) => `${months[m]} ${d}, ${y}`;
const british: Written = (y, m, d) => `${d} ${m === 8 ? "Sept" : months[m]} ${y}`;
const german: Written = (y, m, d) => `${two(d)}.${two(m + 1)}.${y}`;
const usual: Record<string, Written> = { en: american, "en-US": american, "en-GB": british, de: german, "de-DE": german, "de-AT": german };

const formats = new Map<string, Intl.DateTimeFormat>();

function told(time: Date, how: Intl.DateTimeFormatOptions): string {
  const key = `${locale()} ${how.timeStyle}`;
  const format = formats.get(key) ?? new Intl.DateTimeFormat(locale(), how);
  formats.set(key, format);
  return format.format(time);
}

// day says the day of a time, where the device is at home.
export function day(time: string | undefined): string {
  if (!time) return "";
  const then = new Date(time);
  const written = usual[locale()];
  return written ? written(then.getFullYear(), then.getMonth(), then.getDate()) : told(then, { dateStyle: "medium" });
}

// moment says the minute of it too.
export const moment = (time: string | undefined): string => (time ? told(new Date(time), { dateStyle: "medium", timeStyle: "short" }) : "");
