// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CwMIVgAc.js","/assets/classroom-CDtGnxzH.js","/assets/clock-DUgslePm.js","/assets/correcting-S6wP78xd.js","/assets/details-DTINyBSO.js","/assets/draft-D5_nojz4.js","/assets/events-CuMaFGTl.js","/assets/fit-aYbdJ9VH.js","/assets/german-CoTpEG-D.js","/assets/rules-Cw2uQSoz.js","/assets/rules-m4j9v7kq.css","/assets/when--R0xFqq-.js"];
const shell = `shell-${"98c75b2440ce8828"}`;

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
