// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-BLbG6-2j.js","/assets/classroom-MOhzh4uG.js","/assets/clock-DUgslePm.js","/assets/correcting-DD2UOQp9.js","/assets/details-BH04sAxb.js","/assets/draft-BAZ0rC2H.js","/assets/events-DYEcjdxC.js","/assets/fit-93jNgVtN.js","/assets/german-CoTpEG-D.js","/assets/jobframe-C8GID7le.js","/assets/rules-T4TcPDgh.js","/assets/rules-m4j9v7kq.css","/assets/when-CyHhysVt.js"];
const shell = `shell-${"c73f4fb767105f7e"}`;

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
