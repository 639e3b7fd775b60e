// Taken is one stretch that a calendar of bay time holds.
export type Taken = { uid: string; from: string; to: string; says: string; cancelled: boolean };

// taken reads the stretches of an iCalendar file (RFC 5545) as the service writes it: times in UTC, long lines folded.
export function taken(ics: string): Taken[] {
  const lines = ics.replace(/\r?\n[ \t]/g, "").split(/\r?\n/);
  const found: Taken[] = [];
  let now: Record<string, string> | undefined;
  for (const line of lines) {
    if (line === "BEGIN:VEVENT") now = {};
    else if (line === "END:VEVENT" && now) {
      const from = timeOf(now.DTSTART);
      const to = timeOf(now.DTEND);
      if (from && to) found.push({ uid: now.UID ?? "", from, to, says: plain(now.SUMMARY ?? ""), cancelled: now.STATUS === "CANCELLED" });
      now = undefined;
    } else if (now) {
      const [, name = "", value = ""] = /^([A-Z-]+)[^:]*:(.*)$/.exec(line) ?? [];
      now[name] = value;
    }
  }
  return found.sort((a, b) => (a.from < b.from ? -1 : 1));
}

function timeOf(text: string | undefined): string | undefined {
  const [, y, mo, d, h, mi, s] = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(text ?? "") ?? [];
  return y ? `${y}-${mo}-${d}T${h}:${mi}:${s}Z` : undefined;
}

// plain undoes the escapes of text values, RFC 5545 3.3.11.
const plain = (text: string) => text.replace(/\\([\\;,nN])/g, (_, c: string) => (c.toLowerCase() === "n" ? " " : c));
