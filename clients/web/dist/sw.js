// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-DHkYHgfS.js","/assets/classroom-CPid9kYD.js","/assets/clock-DUgslePm.js","/assets/correcting-CG2pTC7y.js","/assets/details-C2H4mKgY.js","/assets/draft-_Ly_Q-Zc.js","/assets/events-Cxt8S4BR.js","/assets/fit-DJSkl1P1.js","/assets/german-CoTpEG-D.js","/assets/index-BK31KKTw.js","/assets/job-BRPzzbKa.js","/assets/jobframe-CyYUvbQd.js","/assets/outbox-Dhiu4ONU.js","/assets/ownfacts-BAX6wd6r.js","/assets/planscreen-BMP6D3kx.js","/assets/record-DZDrcAZD.js","/assets/rules-C2xWpvWl.js","/assets/stream-oEH6e23q.js","/assets/ticks-DRYBhP62.js","/assets/when-K6NiddXn.js"];
const shell = `shell-${"7cf1ab6d9a340acc"}`;

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
