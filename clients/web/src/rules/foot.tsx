import { useState } from "preact/hooks";
import { useStore } from "../device/store";
import { Mark } from "../parts/marks";
import { say, Trouble } from "../parts/notice";
import { type Failure, toFailure } from "../wire/failure";
import { phrase } from "../words/phrase";
import { addressOf } from "./address";
import { edits, type Files, save, takeBack } from "./edits";
import type { Tried } from "./tried";

// Foot says what is edited and not saved, and saves it as one. Answers that get stronger are accepted here, in a step of their own.
export function Foot({ files, tried, name, again }: { files: Files; tried: Tried; name?: string; again: () => Promise<void> }) {
  const all = useStore(edits);
  const [asked, ask] = useState("");
  const [failure, fail] = useState<Failure>();
  const names = Object.keys(all);
  const others = names.filter((n) => n !== name);
  const accept = tried.checked?.effects?.accept_stronger ?? "";
  const settled = !tried.busy && !!tried.checked && !tried.checked.problems?.length;

  const store = async (code: string) => {
    fail(undefined);
    if (accept && code !== accept) return ask(accept);
    ask("");
    try {
      await save(all, code);
      say(phrase("{names} {n|is|are} saved and in force", { names: names.join(", "), n: names.length }));
      await again();
    } catch (thrown) {
      fail(toFailure(thrown));
    }
  };

  if (names.length === 0 && !name) return null;
  return (
    <>
      <Trouble failure={failure} />
      {name && others.length > 0 && (
        <p>
          {phrase("Edited too, and tried together with this:")}{" "}
          {others.map((n, i) => (
            <span key={n}>
              {i > 0 && ", "}
              <a href={addressOf(n)}>{n}</a>
            </span>
          ))}
        </p>
      )}
      <div class="actions foot">
        {asked && asked === accept && settled ? (
          <div class="accepting" role="alert">
            <Mark shape="danger">{phrase("Answers get stronger, or something is told no more. Nothing is saved yet.")}</Mark>
            <div class="actions">
              <button type="button" class="quiet" onClick={() => ask("")}>
                {phrase("Not yet")}
              </button>
              <button type="button" onClick={() => void store(accept)}>
                {phrase("Accept the stronger answers and save")}
              </button>
            </div>
          </div>
        ) : (
          <>
            {name && (
              <button type="button" class="quiet" disabled={!all[name]} onClick={() => takeBack(name)}>
                {phrase("As it was")}
              </button>
            )}
            {!name && (
              <button type="button" class="quiet" disabled={names.length === 0} onClick={() => takeBack(...names)}>
                {phrase("Take all back")}
              </button>
            )}
            {files.folder && (
              <button type="button" class="main" disabled={names.length === 0 || !settled} onClick={() => void store("")}>
                {names.length > 1 ? phrase("Save {n} files", { n: names.length }) : phrase("Save")}
              </button>
            )}
          </>
        )}
      </div>
    </>
  );
}
