// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-LIClZxbk.js","/assets/classroom-DmvNr0Z3.js","/assets/clock-DUgslePm.js","/assets/correcting-C8aQBSOI.js","/assets/details-Uu20IsX1.js","/assets/draft-DkV4oBNX.js","/assets/events-D4-Xdyz-.js","/assets/fit-aCK2MJHK.js","/assets/german-D2bYj68R.js","/assets/rules-CpsKwFEL.js","/assets/rules-m4j9v7kq.css","/assets/when-B8ILdUU2.js"];
const shell = `shell-${"6eaf23f5033ab091"}`;

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
