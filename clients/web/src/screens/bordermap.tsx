import type { DecisionMap } from "../wire/contract";
import { named, parts, phrase } from "../words/phrase";
import { big } from "../words/word";
import { axes } from "./classroom";

type Props = { map: DecisionMap | undefined; x: string; y: string; onX: (x: string) => void; onY: (y: string) => void };

// BorderMap shows where one answer ends and the next begins, over two facts. The table is exact, not a sample.
export function BorderMap({ map, x, y, onX, onY }: Props) {
  return (
    <section aria-labelledby="map">
      <h2 id="map">{phrase("Where the answer changes")}</h2>
      <div class="actions">
        <Axis id="across" label={phrase("Across")} value={x} not={y} onPick={onX} />
        <Axis id="down" label={phrase("Down")} value={y} not={x} onPick={onY} />
      </div>
      {map && (
        // A table wider than the screen is scrolled, so it can be reached by keyboard too.
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls
        <div class="scroll" tabIndex={0} role="region" aria-label={phrase("The map as a table")}>
          <table>
            <caption>
              {parts("{table}: {y} down, {x} across", {
                table: <span lang="en">{big(map.about ? `${map.table} for ${map.about}` : (map.table ?? ""))}</span>,
                y: named("FACT", map.y_label ?? ""),
                x: named("FACT", map.x_label ?? ""),
              })}
            </caption>
            <thead>
              <tr>
                <td />
                {(map.xs ?? []).map((s, i) => (
                  <th key={i} scope="col" lang="en">
                    {s}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {(map.rows ?? []).map((row, r) => (
                <tr key={r}>
                  <th scope="row" lang="en">
                    {map.ys?.[r]}
                  </th>
                  {(row.answers ?? []).map((answer, c) => {
                    const here = r === (map.at_y ?? 0) && c === (map.at_x ?? 0);
                    return (
                      <td key={c} class={`${here ? "here " : ""}s-${(answer || "no").split(" ").at(-1)}`}>
                        {answer ? named("STEP", answer) : phrase("no rule")}
                        {here && ` ◂ ${phrase("here")}`}
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {map?.exact === false && <p class="hint">{phrase("A condition ties several facts together, so the answer may also change within a field.")}</p>}
    </section>
  );
}

function Axis({ id, label, value, not, onPick }: { id: string; label: string; value: string; not: string; onPick: (v: string) => void }) {
  return (
    <div class="entry">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(e) => onPick(e.currentTarget.value)}>
        {axes
          .filter(([name]) => name !== not)
          .map(([name, says]) => (
            <option key={name} value={name}>
              {says()}
            </option>
          ))}
      </select>
    </div>
  );
}
