// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CQJj9igw.js","/assets/classroom-Ff-_2jky.js","/assets/clock-DUgslePm.js","/assets/correcting-C7ULW_zG.js","/assets/details-CIdPAOfT.js","/assets/draft-WGgzX609.js","/assets/events-CeAxKTn0.js","/assets/fit-CjCQjW1K.js","/assets/german-CoTpEG-D.js","/assets/rules-BtErIoga.js","/assets/rules-m4j9v7kq.css","/assets/when-DFOomzGT.js"];
const shell = `shell-${"2f479d2f8755bdce"}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(shell).then((cache) => cache.addAll(files)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name.startsWith("shell-") && name !== shell) await caches.delete(name);
      await self.clients.claim();
    })(),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const at = new URL(request.url);
  if (request.method !== "GET" || at.origin !== self.location.origin || !files.includes(at.pathname)) return;
  event.respondWith(
    caches
      .open(shell)
      .then((cache) => cache.match(at.pathname))
      .then((kept) => kept ?? fetch(request)),
  );
});
