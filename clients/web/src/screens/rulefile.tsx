import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { useStore } from "../device/store";
import { Mark } from "../parts/marks";
import { Trouble } from "../parts/notice";
import { to } from "../route";
import { edits, type Files, fetchFiles, overtaken, put, takeBack, textsOf } from "../rules/edits";
import { Foot } from "../rules/foot";
import { Trial } from "../rules/trial";
import { useTried } from "../rules/tried";
import { type Failure, toFailure } from "../wire/failure";
import { phrase } from "../words/phrase";

const lineHeight = 21; // of the editor, in px

// useFiles are the files of the service, and a way to ask anew.
export function useFiles(): { files?: Files; failure?: Failure; again: () => Promise<void> } {
  const [files, set] = useState<Files>();
  const [failure, fail] = useState<Failure>();
  const again = () =>
    fetchFiles().then(
      (f) => (set(f), fail(undefined)),
      (e) => fail(toFailure(e)),
    );
  useEffect(() => void again(), []);
  return { files, failure, again };
}

// RuleFileEditor edits one file as text. What comes of it is told while somebody types: problems with line and column, answers
// that change, worked cases that come out otherwise; and on request what it would have answered to what is on record.
export function RuleFileEditor({ name, line }: { name: string; line?: number }) {
  const { files, failure, again } = useFiles();
  if (files?.files[name]) return <Editor name={name} line={line} files={files} again={again} />;
  return (
    <>
      <h1>{name}</h1>
      {files ? (
        <p role="alert">{phrase("There is no file {name} any more.", { name })}</p>
      ) : failure ? (
        <Trouble failure={failure} again={again} />
      ) : (
        <p role="status">{phrase("Fetching the file …")}</p>
      )}
    </>
  );
}

function Editor({ name, line, files, again }: { name: string; line?: number; files: Files; again: () => Promise<void> }) {
  const all = useStore(edits);
  const texts = useMemo(() => textsOf(files, all), [files, all]);
  const tried = useTried(texts);
  const area = useRef<HTMLTextAreaElement>(null);
  const text = texts[name] ?? "";

  const jump = (at: number, column: number) => {
    const from =
      text
        .split("\n")
        .slice(0, at - 1)
        .reduce((n, l) => n + l.length + 1, 0) + Math.max(0, column - 1);
    area.current?.focus();
    area.current?.setSelectionRange(from, text.indexOf("\n", from) < 0 ? text.length : text.indexOf("\n", from));
    if (area.current) area.current.scrollTop = (at - 5) * lineHeight;
  };
  useEffect(() => {
    if (line) jump(line, 1);
  }, [line]);

  return (
    <>
      <div class="heading">
        <h1>{name}</h1>
        <a class="button quiet" href={to("rules")}>
          {phrase("All files")}
        </a>
      </div>
      {!files.folder && <p class="hint">{phrase("These are the rules as shipped: what is changed here is only tried, and not kept.")}</p>}
      {overtaken(files, all).includes(name) && (
        <div class="band warn">
          <Mark shape="care">{phrase("Somebody has changed this file since you began.")}</Mark>
          <p>{phrase("Your text is below. It cannot be saved over theirs: copy what you want to keep, take their text, and put yours into it.")}</p>
          <button type="button" onClick={() => takeBack(name)}>
            {phrase("Take their text")}
          </button>
        </div>
      )}
      <div class="split editing">
        <textarea
          ref={area}
          class="editor"
          aria-label={phrase("Text of {name}", { name })}
          aria-describedby="checked"
          spellcheck={false}
          autocapitalize="off"
          value={text}
          onInput={(e) => put(name, e.currentTarget.value, files.files[name])}
        />
        <Trial tried={tried} texts={texts} file={name} onJump={jump} />
      </div>
      <Foot files={files} tried={tried} name={name} again={again} />
    </>
  );
}
