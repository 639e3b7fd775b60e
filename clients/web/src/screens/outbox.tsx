import { tryAgain, waiting, withdraw } from "../device/outbox";
import { useStore } from "../device/store";
import { mendable, takeBack } from "../job/record";
import { Mark } from "../parts/marks";
import { go, partOf, to } from "../route";
import { moment } from "../words/day";
import { parts, phrase } from "../words/phrase";
import { big } from "../words/word";

// Outbox shows what is on this device and not yet on record.
export function Outbox() {
  const entries = useStore(waiting);
  return (
    <>
      <h1>{phrase("Waiting on this device")}</h1>
      {entries.length === 0 && <p>{phrase("Nothing waits. Everything that was recorded has been acknowledged.")}</p>}
      <ul class="plain cards">
        {entries.map((e) => (
          <li key={e.place} class="card">
            <h2>{big(e.says)}</h2>
            <p>{parts("Entered {when} · {link}", { when: moment(e.made), link: <a href={to("job", partOf(e.job))}>{phrase("open the job")}</a> })}</p>
            {e.refused ? (
              <>
                <Mark shape="stop">{phrase("Refused by the service")}</Mark>
                <p lang="en">{e.refused}</p>
                <p class="hint">{phrase("Later entries of this job wait behind it.")}</p>
                <div class="actions">
                  {mendable(e) && (
                    <button type="button" class="main" onClick={() => void takeBack(e).then((at) => go("job", partOf(e.job), ...at))}>
                      {phrase("Take back and mend")}
                    </button>
                  )}
                  <button type="button" onClick={() => void tryAgain(e)}>
                    {phrase("Send again")}
                  </button>
                  <button
                    type="button"
                    class="quiet"
                    onClick={() => confirm(phrase("Throw away “{what}”? It is not on record.", { what: e.says })) && void withdraw(e)}
                  >
                    {phrase("Throw away")}
                  </button>
                </div>
              </>
            ) : (
              <Mark shape="wait">{phrase("Waits for the network")}</Mark>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
