// The page's own database on the device. Three shelves: drafts (what is being entered, by job), waiting (what is to be sent, in
// order) and kept (the last answers, to show where there is no network).
type Shelf = "drafts" | "waiting" | "kept";

let opened: Promise<IDBDatabase> | undefined;
let isOpen = false;
// Settles, on the first visit, as soon as the database turns out not to have been there.
let madeNow: () => void;
const made = new Promise<void>((then) => (madeNow = then));

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("glossladder", 1);
    request.onupgradeneeded = () => {
      isOpen = true;
      madeNow();
      request.result.createObjectStore("drafts");
      request.result.createObjectStore("waiting", { keyPath: "place", autoIncrement: true });
      request.result.createObjectStore("kept");
    };
    request.onsuccess = () => {
      isOpen = true;
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  return opened;
}

// within runs one request and settles when it is on disk, or when it has been read.
async function within<R>(shelf: Shelf, mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<R>): Promise<R> {
  const db = await open();
  return new Promise((resolve, reject) => {
    const step = db.transaction(shelf, mode, { durability: mode === "readwrite" ? "strict" : "default" });
    const request = ask(step.objectStore(shelf));
    step.oncomplete = () => resolve(request.result);
    step.onerror = () => reject(step.error);
    step.onabort = () => reject(step.error);
  });
}

// look answers what was asked before the database was there at once: nothing was in it. The first visit of a slow phone waits less.
const look = <R>(asked: Promise<R>, nothing: R): Promise<R> => (isOpen ? asked : Promise.race([asked, made.then(() => nothing)]));

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
