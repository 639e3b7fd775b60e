import type { Instead } from "../device/drafts";
import { phrase } from "../words/phrase";
import { big } from "../words/word";
import { changesOf } from "./lines";

// Changes shows what an event was and what holds in its place, line by line.
export function Changes({ was, now }: { was: Instead; now: Instead }) {
  const changes = changesOf(was, now);
  if (changes.length === 0) return <p class="hint">{phrase("Nothing differs yet.")}</p>;
  return (
    <ul class="plain changes">
      {changes.map((c) => (
        <li key={c.what}>
          <b>{big(c.what)}</b>
          <span>
            {phrase("was")} <del>{c.was || phrase("nothing")}</del>
          </span>
          <span>
            {phrase("now")} <ins>{c.now || phrase("nothing")}</ins>
          </span>
        </li>
      ))}
    </ul>
  );
}
