// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-BxLaarmo.js","/assets/classroom-CTDL4ghz.js","/assets/clock-DUgslePm.js","/assets/correcting-CXnt9c2c.js","/assets/details-8KUfB7C9.js","/assets/draft-F0ox5_eA.js","/assets/events-BUoLrWnt.js","/assets/fit-Bqm-O_fJ.js","/assets/german-CoTpEG-D.js","/assets/jobframe-C2pMhaAy.js","/assets/planscreen-BWGDrAjR.js","/assets/rules-BJhIaRdO.js","/assets/rules-m4j9v7kq.css","/assets/when-DogrBzHY.js"];
const shell = `shell-${"b1819034bffb725b"}`;

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
