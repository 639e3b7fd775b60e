import { useMemo } from "preact/hooks";
import { useStore } from "../device/store";
import { Trouble } from "../parts/notice";
import { to } from "../route";
import { addressOf } from "../rules/address";
import { edits, type Files, textsOf } from "../rules/edits";
import { Foot } from "../rules/foot";
import { Trial } from "../rules/trial";
import { useTried } from "../rules/tried";
import { phrase } from "../words/phrase";
import { useFiles } from "./rulefile";

// RuleTrial looks at the whole set, with whatever is edited and not saved: problems, answers, worked cases and the record.
export function RuleTrial() {
  const { files, failure, again } = useFiles();
  return (
    <>
      <div class="heading">
        <h1>{phrase("Try the rules out")}</h1>
        <a class="button quiet" href={to("rules")}>
          {phrase("All tables")}
        </a>
      </div>
      {files ? (
        <Whole files={files} again={again} />
      ) : failure ? (
        <Trouble failure={failure} again={again} />
      ) : (
        <p role="status">{phrase("Fetching the rules …")}</p>
      )}
    </>
  );
}

function Whole({ files, again }: { files: Files; again: () => Promise<void> }) {
  const all = useStore(edits);
  const texts = useMemo(() => textsOf(files, all), [files, all]);
  const tried = useTried(texts);
  const names = Object.keys(all);
  return (
    <>
      {names.length === 0 ? (
        <p>{phrase("The files as they are now, against the set in force. Edit a file, and this tells what comes of it.")}</p>
      ) : (
        <>
          <p>{phrase("With what is edited on this device and not saved:")}</p>
          <ul class="plain rows">
            {names.map((n) => (
              <li key={n}>
                <a href={addressOf(n)}>
                  <b>{n}</b>
                </a>
              </li>
            ))}
          </ul>
        </>
      )}
      <Trial tried={tried} texts={texts} />
      <Foot files={files} tried={tried} again={again} />
    </>
  );
}
