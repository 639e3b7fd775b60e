// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-C5FWhEoA.js","/assets/classroom-YcqEjVki.js","/assets/clock-DUgslePm.js","/assets/correcting-DI3WZqj3.js","/assets/details-B_kHCo7L.js","/assets/draft-CvP1lidG.js","/assets/events-hVlFdFgZ.js","/assets/fit-L1boRkUV.js","/assets/german-CoTpEG-D.js","/assets/index-DopEAP84.js","/assets/job-BY7I2H6P.js","/assets/jobframe-kF_gf9Sw.js","/assets/outbox-DeQYlvMX.js","/assets/ownfacts-FanUIa6B.js","/assets/planscreen-Db7X0izw.js","/assets/record-DJGnZdId.js","/assets/rules-D7e1jFnp.js","/assets/rules-g6_CsZI5.css","/assets/stream-DAXMqw-4.js","/assets/ticks-DRYBhP62.js","/assets/when-1TYvJxEs.js"];
const shell = `shell-${"cda16ec0beb7af4d"}`;

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
