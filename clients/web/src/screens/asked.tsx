import { change } from "../device/drafts";
import { useStore } from "../device/store";
import { mended, refusedOf, saidOf } from "../job/refused";
import { panelOf, withPanel } from "../job/sheet";
import { partOfPanel } from "../parts/outline";
import { type Own, OwnFacts } from "../parts/ownfacts";
import { phrase } from "../words/phrase";
import { panelName, small } from "../words/word";
import type { Ready } from "./jobframe";

const kept = (values: Own): { shop?: Own } => (Object.keys(values).length ? { shop: values } : {});

// AskedOfVehicle is what the shop asks besides of the whole vehicle, by the facts of its own.
export function AskedOfVehicle({ job }: { job: Ready }) {
  const refused = useStore(refusedOf);
  return (
    <OwnFacts
      heading={phrase("What this shop asks besides")}
      values={job.draft.inspection.shop}
      open={phrase("not said")}
      wrong={(name) => saidOf(refused, job.name, `shop[${name}]`)}
      onSet={(label, name, values) => {
        mended(job.name, `shop[${name}]`);
        change(job.name, small(label), ({ inspection: { shop: _, ...rest }, ...d }) => ({ ...d, inspection: { ...rest, ...kept(values) } }));
      }}
    />
  );
}

// AskedOfPanel is the same of one panel, where it is otherwise than the whole vehicle.
export function AskedOfPanel({ job, panel }: { job: Ready; panel: string }) {
  const refused = useStore(refusedOf);
  return (
    <OwnFacts
      heading={phrase("What this shop asks besides")}
      values={panelOf(job.draft, panel)?.shop}
      open={phrase("as the whole vehicle")}
      wrong={(name) => saidOf(refused, job.name, `shop[${name}]`, panel)}
      onSet={(label, name, values) => {
        mended(job.name, `shop[${name}]`, panel);
        const did = phrase("{what}: {did}", { what: panelName(panel), did: small(label) });
        change(job.name, did, (d) => withPanel(d, panel, partOfPanel(panel), ({ shop: _, ...p }) => ({ ...p, ...kept(values) })));
      }}
    />
  );
}
