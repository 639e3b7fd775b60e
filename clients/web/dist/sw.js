// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-DmwndO1-.js","/assets/classroom-B7y7x8-A.js","/assets/clock-DUgslePm.js","/assets/correcting-CEUDRChn.js","/assets/details-DD9ulWcP.js","/assets/draft-DCMMl3Jk.js","/assets/events-QgMqD2tN.js","/assets/fit-PNYn4Zhd.js","/assets/german-CoTpEG-D.js","/assets/jobframe-B6w_if14.js","/assets/planscreen-CMh15HHX.js","/assets/rules-DNGA0pv2.js","/assets/rules-m4j9v7kq.css","/assets/when-BnMrscvK.js"];
const shell = `shell-${"1e3e7dcfbfd03480"}`;

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
