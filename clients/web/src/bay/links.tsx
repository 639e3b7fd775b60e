import { say } from "../parts/notice";
import { phrase } from "../words/phrase";

// CalendarLinks lead to the calendars that programs download once or subscribe to.
export function CalendarLinks({ id, bay }: { id: string; bay: string | undefined }) {
  return (
    <section aria-labelledby="calendars">
      <h3 id="calendars">{phrase("In your calendar")}</h3>
      <One path={`/calendar/jobs/${id}.ics`} file={phrase("Download this job’s calendar file")} address={phrase("Copy the address of this job’s calendar")} />
      {bay && (
        <One
          path={`/calendar/bays/${bay}.ics`}
          file={phrase("Download the calendar file of {bay}", { bay })}
          address={phrase("Copy the address of the calendar of {bay}", { bay })}
        />
      )}
      <p class="hint">
        {phrase(
          "A calendar program that subscribes to the address follows every change. On another machine it has to send an access key with it; a file that was downloaded stays as it is.",
        )}
      </p>
    </section>
  );
}

function One({ path, file, address }: { path: string; file: string; address: string }) {
  const copy = () =>
    void navigator.clipboard.writeText(location.origin + path).then(
      () => say(phrase("Copied: {address}", { address: location.origin + path })),
      () => say(phrase("This browser does not copy; the address is {address}", { address: location.origin + path })),
    );
  return (
    <div class="actions">
      <a class="button" href={path} download>
        {file}
      </a>
      <button type="button" class="quiet" onClick={copy}>
        {address}
      </button>
    </div>
  );
}
