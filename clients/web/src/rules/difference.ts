export type Line = { kind: "same" | "gone" | "new"; text: string };

// Beyond so many pairs of lines the middle is told as a whole.
const most = 4_000_000;

// difference tells line by line how a text became another: what both begin and end with, and between them the longest
// sequence of lines that both have.
export function difference(before: string, after: string): Line[] {
  const [a, b] = [before.split("\n"), after.split("\n")];
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const same = (lines: string[]): Line[] => lines.map((text) => ({ kind: "same", text }));
  return [...same(a.slice(0, head)), ...middle(a.slice(head, a.length - tail), b.slice(head, b.length - tail)), ...same(a.slice(a.length - tail))];
}

function middle(a: string[], b: string[]): Line[] {
  const gone = (text: string): Line => ({ kind: "gone", text });
  const come = (text: string): Line => ({ kind: "new", text });
  if (a.length * b.length > most) return [...a.map(gone), ...b.map(come)];
  const width = b.length + 1;
  const long = new Uint32Array((a.length + 1) * width); // of the longest sequence from here on
  const at = (i: number, k: number) => long[i * width + k] ?? 0;
  for (let i = a.length - 1; i >= 0; i--)
    for (let k = b.length - 1; k >= 0; k--) long[i * width + k] = a[i] === b[k] ? at(i + 1, k + 1) + 1 : Math.max(at(i + 1, k), at(i, k + 1));
  const out: Line[] = [];
  let [i, k] = [0, 0];
  while (i < a.length || k < b.length) {
    if (i < a.length && k < b.length && a[i] === b[k]) {
      out.push({ kind: "same", text: a[i] ?? "" });
      i++, k++;
    } else if (k >= b.length || (i < a.length && at(i + 1, k) >= at(i, k + 1))) out.push(gone(a[i++] ?? ""));
    else out.push(come(b[k++] ?? ""));
  }
  return out;
}

// around leaves out lines that are the same, but for some beside what differs. A gap is undefined.
export function around(lines: Line[], keep = 2): (Line | undefined)[] {
  const near = lines.map((_, i) => lines.slice(Math.max(0, i - keep), i + keep + 1).some((l) => l.kind !== "same"));
  const out: (Line | undefined)[] = [];
  lines.forEach((l, i) => {
    if (near[i]) out.push(l);
    else if (out.length > 0 && out[out.length - 1] !== undefined) out.push(undefined);
  });
  if (out.length > 0 && out[out.length - 1] === undefined) out.pop();
  return out;
}
