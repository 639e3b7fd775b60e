// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CqzWxm5J.js","/assets/classroom-D8LGpaLe.js","/assets/clock-DUgslePm.js","/assets/correcting-Bb86q8l5.js","/assets/details-C3yrnnw_.js","/assets/draft-BpWN6j74.js","/assets/events-f9PNIDsh.js","/assets/fit-qOz4TAy4.js","/assets/german-CoTpEG-D.js","/assets/rules-BeGMblUB.js","/assets/rules-m4j9v7kq.css","/assets/when-Cp-IUOjj.js"];
const shell = `shell-${"b15d43cfbc567952"}`;

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
