// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-Ds9NNFdu.js","/assets/classroom-DrafMEcQ.js","/assets/clock-DUgslePm.js","/assets/correcting-COC0MMEX.js","/assets/details-D3IjVBb-.js","/assets/draft-BXlqEWyO.js","/assets/events-BlGg7IuY.js","/assets/fit-K6AXL4EX.js","/assets/german-PKuPMCTv.js","/assets/rules-B58slNaK.js","/assets/rules-m4j9v7kq.css","/assets/when-C6XfUEtO.js"];
const shell = `shell-${"b31539a9c3b0a2fe"}`;

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
