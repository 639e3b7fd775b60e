// The page's own database on the device. Three shelves: drafts (what is being entered, by job), waiting (what is to be sent, in
// order) and kept (the last answers, to show where there is no network).
type Shelf = "drafts" | "waiting" | "kept";

// Opened by ask.js, before this script has come; it makes the shelves on the first visit, and then says that nothing is kept.
declare global {
  var device: IDBOpenDBRequest | undefined;
  var nothingKept: boolean | undefined;
}

let opened: Promise<IDBDatabase> | undefined;
let mayHold = false; // whether there may be something in it, though it has only been made

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = globalThis.device;
    if (!request) return reject(new Error("this browser keeps nothing on the device"));
    const settle = () => (request.error ? reject(request.error) : resolve(request.result));
    if (request.readyState === "done" && !request.transaction) settle();
    else request.onsuccess = request.onerror = settle;
  });
  opened.then(
    () => (mayHold = true),
    () => undefined, // whoever reads or writes is told
  );
  return opened;
}

const made = new Promise<void>((then) => {
  if (globalThis.nothingKept) then();
  else globalThis.device?.addEventListener("upgradeneeded", () => then());
});

// within runs one request and settles when it is on disk, or when it has been read.
async function within<R>(shelf: Shelf, mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<R>): Promise<R> {
  mayHold ||= mode === "readwrite";
  const db = await open();
  return new Promise((resolve, reject) => {
    const step = db.transaction(shelf, mode, { durability: mode === "readwrite" ? "strict" : "default" });
    const request = ask(step.objectStore(shelf));
    step.oncomplete = () => resolve(request.result);
    step.onerror = () => reject(step.error);
    step.onabort = () => reject(step.error);
  });
}

// look answers at once what is asked of a database that is only being made: nothing is in it. The first visit of a slow phone waits less.
const look = <R>(asked: Promise<R>, nothing: R): Promise<R> => (mayHold ? asked : Promise.race([asked, made.then(() => nothing)]));

export const put = (shelf: "drafts" | "kept", key: string, value: unknown) => within(shelf, "readwrite", (s) => s.put(value, key));
export const read = <T>(shelf: "drafts" | "kept", key: string) =>
  look(
    within<T | undefined>(shelf, "readonly", (s) => s.get(key)),
    undefined,
  );
export const readAll = <T>(shelf: Shelf) =>
  look(
    within<T[]>(shelf, "readonly", (s) => s.getAll()),
    [],
  );
export const append = (value: unknown) => within("waiting", "readwrite", (s) => s.add(value));
export const replace = (value: unknown) => within("waiting", "readwrite", (s) => s.put(value));
export const remove = (shelf: Shelf, key: IDBValidKey) => within(shelf, "readwrite", (s) => s.delete(key));

// appendWith puts a call in the outbox and a draft on its shelf in one step: both are on disk, or neither is.
export async function appendWith(entry: unknown, job: string, page: unknown): Promise<void> {
  mayHold = true;
  const db = await open();
  return new Promise((resolve, reject) => {
    const step = db.transaction(["waiting", "drafts"], "readwrite", { durability: "strict" });
    step.objectStore("waiting").add(entry);
    step.objectStore("drafts").put(page, job);
    step.oncomplete = () => resolve();
    step.onerror = () => reject(step.error);
    step.onabort = () => reject(step.error);
  });
}
