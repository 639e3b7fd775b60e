const formats = new Map<number, Intl.NumberFormat>();

// figure writes a number as the device's locale does.
export function figure(value: number, digits = 1): string {
  const format = formats.get(digits) ?? new Intl.NumberFormat(undefined, { maximumFractionDigits: digits, minimumFractionDigits: 0 });
  formats.set(digits, format);
  return format.format(Object.is(value, -0) ? 0 : value);
}

export const signed = (value: number, digits = 1): string => (value > 0 ? `+${figure(value, digits)}` : figure(value, digits).replace("-", "−"));

// parsed reads what somebody typed, with a point or a comma. Undefined: it is no number.
export function parsed(text: string): number | undefined {
  const plain = text.trim().replace("−", "-").replace(",", ".");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}

// duration says minutes: 95 is "1 h 35 min".
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const h = Math.floor(whole / 60);
  const m = whole % 60;
  return h ? (m ? `${h} h ${m} min` : `${h} h`) : `${m} min`;
}

const dates = new Intl.DateTimeFormat(undefined, { dateStyle: "medium" });
export const day = (time: string | undefined): string => (time ? dates.format(new Date(time)) : "");

export type Spread = { n: number; mean: number; s?: number };

// spread sums up readings for the eye while they are typed: mean, and standard deviation from two on.
export function spread(values: number[]): Spread | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  if (n === 1) return { n, mean };
  return { n, mean, s: Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / (n - 1)) };
}
