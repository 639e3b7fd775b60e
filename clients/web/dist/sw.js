// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-BL_dbxbM.js","/assets/classroom-5rNF9xP9.js","/assets/clock-DUgslePm.js","/assets/correcting-CnjAx-mZ.js","/assets/details-DEmzMie1.js","/assets/draft-D7dBpw0s.js","/assets/events-BObMh5aK.js","/assets/fit-DyDaKy4u.js","/assets/german-CoTpEG-D.js","/assets/rules-C7pl-_GV.js","/assets/rules-m4j9v7kq.css","/assets/when-Crf8xV3W.js"];
const shell = `shell-${"e25e3b46b155bf66"}`;

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
