// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-OfqT_Kdw.js","/assets/classroom-DTsSKM7K.js","/assets/clock-DUgslePm.js","/assets/correcting-Dv4zTStL.js","/assets/details-C3XaoT4G.js","/assets/draft-wO3DKsad.js","/assets/events-mWwobx68.js","/assets/fit-CfxUOruN.js","/assets/german-PKuPMCTv.js","/assets/rules-BBDaKXMj.js","/assets/rules-m4j9v7kq.css","/assets/when-C-2CHUMk.js"];
const shell = `shell-${"78a9e5ec29dc51a5"}`;

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
