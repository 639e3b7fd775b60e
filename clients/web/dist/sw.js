// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-ByMGgvxm.js","/assets/classroom-CLK7ZXO1.js","/assets/clock-DUgslePm.js","/assets/correcting-DdOGw6sp.js","/assets/details-DYMXmS4G.js","/assets/draft-DCujQKkz.js","/assets/events-CYWIQp6l.js","/assets/fit-DOgYpzVL.js","/assets/german-CoTpEG-D.js","/assets/jobframe-Bn6w1Yhy.js","/assets/outbox-ChLpjWSo.js","/assets/ownfacts-CGZYpRmz.js","/assets/planscreen-B3iFYTwx.js","/assets/record-BWwMyIOw.js","/assets/rules-BS7cXvar.js","/assets/rules-g6_CsZI5.css","/assets/when-BbINS0sd.js"];
const shell = `shell-${"403f68f9ae9d5bfa"}`;

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
