// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-DVsxWlfX.js","/assets/classroom-Cql4xhpY.js","/assets/clock-DUgslePm.js","/assets/correcting-BIoea4uy.js","/assets/details-CcOf9bRH.js","/assets/draft-A46B7P3i.js","/assets/events-DTiUXgrm.js","/assets/fit-DxwQDYMy.js","/assets/german-CoTpEG-D.js","/assets/index-BtR88T2y.js","/assets/job-yT3YkbM9.js","/assets/jobframe-DSv7mBbp.js","/assets/outbox-DxTdyFM_.js","/assets/ownfacts-CiRfguL0.js","/assets/planscreen-CVjx6a1f.js","/assets/record-5Ml84-Kk.js","/assets/rules-lV60eFTr.js","/assets/stream-Cayuu_ke.js","/assets/ticks-DRYBhP62.js","/assets/when-4FaGj1F0.js"];
const shell = `shell-${"d75440c6c218b5bd"}`;

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
