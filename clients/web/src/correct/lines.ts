import type { Instead } from "../device/drafts";
import { factOf } from "../facts";
import { quantities } from "../job/quantities";
import type { Defect, FilmSpot, GlossSpot, Panel } from "../wire/contract";
import { figure } from "../words/number";
import { named, phrase } from "../words/phrase";
import { panelName, word } from "../words/word";
import { fieldName, fieldValue } from "./fields";

type Line = [what: string, value: string];

const readings = (around: string, film: FilmSpot[] | undefined, gloss: GlossSpot[] | undefined): Line[] =>
  quantities.flatMap((q) => {
    const spots: [string | undefined, number[]][] = q.film
      ? (film ?? []).map((s) => [s.spot, s[q.film ?? "total_um"] ?? []])
      : (gloss ?? []).map((s) => [s.spot, s[q.gloss ?? "at60_gu"] ?? []]);
    return spots
      .filter(([, v]) => v.length > 0)
      .map(
        ([spot, v]): Line => [
          `${around}${q.short}, ${named("SPOT", spot ?? "")}`,
          `${v.map((n) => figure(n, 2)).join("  ")} ${factOf(q.fact).unit ?? ""}`.trim(),
        ],
      );
  });

const marks = (around: string, defects: Defect[] | undefined): Line[] =>
  (defects ?? []).map((d) => [
    `${around}${word(d.kind, "DEFECT_KIND")}`,
    [
      d.severity === undefined || d.severity === null ? phrase("not graded") : phrase("{n} of 5", { n: d.severity }),
      d.catches_nail ? phrase("a fingernail catches") : "",
      d.note ?? "",
    ]
      .filter(Boolean)
      .join(", "),
  ]);

// Whatever else a message holds, under the name that the contract gives it.
function rest(around: string, message: object, known: string[]): Line[] {
  return Object.entries(message).flatMap(([key, value]): Line[] => {
    if (known.includes(key) || value === "" || value === null || value === undefined || (typeof value === "string" && value.endsWith("_UNSPECIFIED")))
      return [];
    const name = `${around}${fieldName(key)}`;
    if (Array.isArray(value))
      return value.every((v) => typeof v !== "object") && value.length > 0 ? [[name, value.map((v) => fieldValue(v, key)).join(", ")]] : [];
    return typeof value === "object" ? rest(name ? `${name}, ` : "", value, []) : [[name, fieldValue(value, key)]];
  });
}

const panelLines = (p: Panel): Line[] => [
  ...marks("", p.defects),
  ...readings("", p.film, p.gloss),
  ...rest("", p, ["id", "part", "defects", "film", "gloss"]),
];

// groupsOf tells everything that an event holds, line by line; of an inspection, panel by panel.
export function groupsOf(e: Instead): [about: string, lines: Line[]][] {
  if (!e.inspection) return [["", messageLines(e)]];
  return [["", rest("", e.inspection, ["panels"])], ...(e.inspection.panels ?? []).map((p): [string, Line[]] => [panelName(p.id ?? ""), panelLines(p)])];
}

const linesOf = (e: Instead): Line[] =>
  groupsOf(e).flatMap(([about, lines]) => (about ? lines.map(([what, value]): Line => [`${about}, ${what}`, value]) : lines));

function messageLines(e: Instead): Line[] {
  if (e.readings) {
    const r = e.readings;
    return [...readings("", r.film, r.gloss), ...marks("", r.left), ...rest("", r, ["film", "gloss", "left"])];
  }
  if (e.trial) {
    const t = e.trial.trial ?? {};
    const known = ["before", "after", "film_before", "film_after", "left"];
    return [
      ...readings(`${phrase("before")}, `, t.film_before, t.before),
      ...readings(`${phrase("after")}, `, t.film_after, t.after),
      ...marks(`${phrase("left")}, `, t.left),
      ...rest("", t, known),
    ];
  }
  return e.progress ? rest("", e.progress, []) : [];
}

export type Change = { what: string; was: string; now: string };

// changesOf are the lines in which two differ; "" is not there.
export function changesOf(was: Instead, now: Instead): Change[] {
  const [before, after] = [new Map(linesOf(was)), new Map(linesOf(now))];
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((what) => ({ what, was: before.get(what) ?? "", now: after.get(what) ?? "" }))
    .filter((c) => c.was !== c.now);
}
