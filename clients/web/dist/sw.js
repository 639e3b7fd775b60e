// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-8XEFzAbR.js","/assets/classroom-C7oG6FcE.js","/assets/clock-DUgslePm.js","/assets/correcting-BJqZ08-d.js","/assets/details--S5Mf7TF.js","/assets/draft-BgS0puap.js","/assets/events-TiZskM5E.js","/assets/fit-BOLPMIcr.js","/assets/german-CARiZHih.js","/assets/rules-Dq6m8p1d.js","/assets/rules-m4j9v7kq.css","/assets/when-BghEbbJB.js"];
const shell = `shell-${"b236c99856ea2586"}`;

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
