// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-Cv-vUsgM.js","/assets/classroom-84jIgsJW.js","/assets/clock-DUgslePm.js","/assets/correcting-DfvH-AJC.js","/assets/details-Bm1mUARV.js","/assets/draft-DfQMyHTu.js","/assets/events-D3oKJAAj.js","/assets/fit-BmFRkW0N.js","/assets/german-BBeDNPMu.js","/assets/rules-DJUdSZ_5.js","/assets/rules-m4j9v7kq.css","/assets/when--8CWFOKZ.js"];
const shell = `shell-${"ce1487274b417f15"}`;

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
