// Times of the wall clock where the device is.
const moments = new Intl.DateTimeFormat(undefined, { weekday: "short", day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit" });
const hours = new Intl.DateTimeFormat(undefined, { hour: "2-digit", minute: "2-digit" });

export const moment = (time: string | undefined): string => (time ? moments.format(new Date(time)) : "");

// stretch says from when to when: the day once, if it is one.
export function stretch(from: string | undefined, to: string | undefined): string {
  if (!from || !to) return "";
  const sameDay = new Date(from).toDateString() === new Date(to).toDateString();
  return `${moment(from)} – ${sameDay ? hours.format(new Date(to)) : moment(to)}`;
}

export const zone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

const two = (n: number) => String(n).padStart(2, "0");

// typed is a time as an entry of date and time holds it; taken reads it back. Undefined: it is no time.
export function typed(time: string | undefined): string {
  if (!time) return "";
  const d = new Date(time);
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}T${two(d.getHours())}:${two(d.getMinutes())}`;
}

export function taken(text: string): string | undefined {
  const d = new Date(text);
  return text === "" || Number.isNaN(d.getTime()) ? undefined : d.toISOString();
}
