// The sheet for the owner, as the page shows it.
export const record: Record<string, string> = {
  "There is nothing on record yet.": "Noch ist nichts festgehalten.",
  Print: "Drucken",
  "The full record": "Das ganze Protokoll",
  "Record of the work": "Protokoll der Arbeit",
  "{vehicle} · {from} to {to} · {stage}": "{vehicle} · {from} bis {to} · {stage}",
  "Left on purpose, and care": "Mit Absicht belassen, und die Pflege",
  "Gloss is in gloss units (GU), haze in haze units (HU), film in micrometres (µm), all layers together. Film figures are bounds and estimates: a gauge reads only where it was set down.":
    "Glanz steht in Glanzeinheiten (GU), Schleier in Schleiereinheiten (HU), Schichtdicke in Mikrometern (µm), alle Schichten zusammen. Zahlen zur Schichtdicke sind Grenzen und Schätzungen: Ein Messgerät misst nur, wo es aufgesetzt wurde.",
  Found: "Gefunden",
  "no marks noted": "keine Spuren vermerkt",
  "{mark}, severity {severity} of 5": "{mark}, Stärke {severity} von 5",
  "; film {mean} µm on average over {n} {n|reading|readings}": "; Schichtdicke im Mittel {mean} µm aus {n} {n|Messwert|Messwerten}",
  "Work done": "Getan",
  "{before}, then {next}": "{before}, danach {next}",
  "planned: {ladder}": "geplant: {ladder}",
  "nothing: left alone": "nichts: so belassen",
  Ladder: "Arbeitsfolge",
  "proven on {n} {n|test spot|test spots}": "bewiesen an {n} {n|Probestelle|Probestellen}",
  "not tried on this panel": "an diesem Bauteil nicht versucht",
  "Film taken": "Abgetragen",
  "{low} to {high} µm, measured": "{low} bis {high} µm, gemessen",
  "{low} to {high} µm, as expected of the steps": "{low} bis {high} µm, von den Arbeitsgängen zu erwarten",
  Left: "Belassen",
  "Gloss at {angle}°": "Glanz bei {angle}°",
  "Gloss at {angle}°, on the test spot": "Glanz bei {angle}°, an der Probestelle",
  "Haze, on the test spot": "Schleier, an der Probestelle",
  "{name}: {before} before, {after} after, change {change} {unit}, between {low} and {high}":
    "{name}: vorher {before}, nachher {after}, Änderung {change} {unit}, zwischen {low} und {high}",
  "{name}: {before} → {after} {unit}, change {change} ({low} to {high}, {confidence} % confidence)":
    "{name}: {before} → {after} {unit}, Änderung {change} ({low} bis {high}, {confidence} % Vertrauen)",
  before: "vorher",
  after: "nachher",
  "{scale} over the panel: {before} before, {seen} after ({spots} {spots|spot|spots}) {unit}":
    "{scale} über das Bauteil: vorher {before}, nachher {seen} ({spots} {spots|Stelle|Stellen}) {unit}",
  "{scale} over the panel: {before} before, {seen} after ({spots} {spots|spot|spots}); the test spot promised {promised} {unit}":
    "{scale} über das Bauteil: vorher {before}, nachher {seen} ({spots} {spots|Stelle|Stellen}); die Probestelle versprach {promised} {unit}",
};
