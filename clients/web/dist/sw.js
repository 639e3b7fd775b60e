// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-BNo9e4dh.js","/assets/classroom-CDeGz8dE.js","/assets/clock-DUgslePm.js","/assets/correcting-0jyfrVyw.js","/assets/details-pZrZ9ZVx.js","/assets/draft-CdgGR8Sv.js","/assets/events-BdlYFwKA.js","/assets/fit-DCgcD73j.js","/assets/german-D2bYj68R.js","/assets/rules-BoOdsZAt.js","/assets/rules-m4j9v7kq.css","/assets/when-CFmA1Fqy.js"];
const shell = `shell-${"701ed3f62e41aab3"}`;

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
