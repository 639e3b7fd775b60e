// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CdkJQM9m.js","/assets/classroom-DoXszWwD.js","/assets/clock-DUgslePm.js","/assets/correcting-87sxOzuF.js","/assets/details-C6cpm_ob.js","/assets/draft-SnlIZeGE.js","/assets/events-CnRExe61.js","/assets/fit-9dWVZUt4.js","/assets/german-D2bYj68R.js","/assets/rules-CdLPiO3O.js","/assets/rules-m4j9v7kq.css","/assets/when-CWebIZ9k.js"];
const shell = `shell-${"8b0ad800c5bd54f5"}`;

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
