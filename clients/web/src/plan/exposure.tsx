import { Mark } from "../parts/marks";
import type { ExposureDay } from "../wire/contract";
import { duration, figure } from "../words/number";
import { phrase } from "../words/phrase";

type Said = readonly ["done" | "care" | "danger", string];

const vibration = (band: string | undefined): Said => {
  if (band === "EXPOSURE_BAND_OVER_LIMIT") return ["danger", phrase("over the value that no day may pass")];
  if (band === "EXPOSURE_BAND_ACTION") return ["care", phrase("at or over the value from which an employer has to act")];
  return ["done", phrase("under the value from which an employer has to act")];
};

const noise = (band: string | undefined): Said => {
  if (band === "NOISE_BAND_OVER_LIMIT") return ["danger", phrase("over the limit")];
  if (band === "NOISE_BAND_UPPER_ACTION") return ["danger", phrase("hearing protection has to be worn")];
  if (band === "NOISE_BAND_LOWER_ACTION") return ["care", phrase("hearing protection has to be offered")];
  return ["done", phrase("under the value from which protection has to be offered")];
};

// Exposure is one person's day with the machines in the hands, and what to mind about it in words.
export function Exposure({ day }: { day: ExposureDay }) {
  const v = day.vibration;
  const n = day.noise;
  const [vShape, vSays] = vibration(v?.band);
  const [highShape, highSays] = vibration(v?.high_band);
  const [nShape, nSays] = noise(n?.band);
  return (
    <section class="card" aria-labelledby="exposure">
      <h2 id="exposure">{phrase("One person’s day with the machine")}</h2>
      <p>{phrase("{time} a day with a machine in the hands, over {days} {days|day|days}.", { time: duration(day.hands_min ?? 0), days: day.days ?? 1 })}</p>
      {(day.cautions ?? []).map((c, i) => (
        <p key={i} class="caution-line" lang="en">
          {c}
        </p>
      ))}
      <dl class="wide">
        {v && (
          <div>
            <dt>{phrase("Vibration of hands and arms")}</dt>
            <dd>{phrase("{value} m/s² over the day, {points} points", { value: figure(v.a8_ms2 ?? 0), points: Math.round(v.points ?? 0) })}</dd>
            <dd>
              <Mark shape={vShape}>{vSays}</Mark>
            </dd>
            <dd class="soft">
              {phrase("at the longest times and with what the makers declare as doubt: {value} m/s²", { value: figure(v.high_a8_ms2 ?? 0) })}
            </dd>
            {v.high_band !== v.band && (
              <dd>
                <Mark shape={highShape}>{highSays}</Mark>
              </dd>
            )}
          </div>
        )}
        {n && (
          <div>
            <dt>{phrase("Noise")}</dt>
            <dd>{phrase("{value} dB(A) over the day", { value: figure(n.daily_dba ?? 0) })}</dd>
            <dd>
              <Mark shape={nShape}>{nSays}</Mark>
            </dd>
          </div>
        )}
      </dl>
      <Unknown
        of={day.unknown_vibration}
        says={phrase("The catalogue does not tell the vibration of {machines}: the day is more than what is shown.", listed(day.unknown_vibration))}
      />
      <Unknown
        of={day.unknown_noise}
        says={phrase("The catalogue does not tell the noise of {machines}: the day is louder than what is shown.", listed(day.unknown_noise))}
      />
    </section>
  );
}

const listed = (of: string[] | undefined) => ({ machines: (of ?? []).join(", ") });

function Unknown({ of, says }: { of: string[] | undefined; says: string }) {
  return of?.length ? (
    <p class="caution-line">
      <Mark shape="care">{says}</Mark>
    </p>
  ) : null;
}
