import { tryAgain, waiting, withdraw } from "../device/outbox";
import { useStore } from "../device/store";
import { mendable, takeBack } from "../job/record";
import { Mark } from "../parts/marks";
import { go, partOf, to } from "../route";
import { big } from "../words/word";

// Outbox shows what is on this device and not yet on record.
export function Outbox() {
  const entries = useStore(waiting);
  return (
    <>
      <h1>Waiting on this device</h1>
      {entries.length === 0 && <p>Nothing waits. Everything that was recorded has been acknowledged.</p>}
      <ul class="plain cards">
        {entries.map((e) => (
          <li key={e.place} class="card">
            <h2>{big(e.says)}</h2>
            <p>
              Entered {new Date(e.made).toLocaleString()} · <a href={to("job", partOf(e.job))}>open the job</a>
            </p>
            {e.refused ? (
              <>
                <Mark shape="stop">Refused by the service</Mark>
                <p>{e.refused}</p>
                <p class="hint">Later entries of this job wait behind it.</p>
                <div class="actions">
                  {mendable(e) && (
                    <button type="button" class="main" onClick={() => void takeBack(e).then((at) => go("job", partOf(e.job), ...at))}>
                      Take back and mend
                    </button>
                  )}
                  <button type="button" onClick={() => void tryAgain(e)}>
                    Send again
                  </button>
                  <button type="button" class="quiet" onClick={() => confirm(`Throw away "${e.says}"? It is not on record.`) && void withdraw(e)}>
                    Throw away
                  </button>
                </div>
              </>
            ) : (
              <Mark shape="wait">Waits for the network</Mark>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
