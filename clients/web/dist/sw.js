// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-Btp0i8ok.js","/assets/classroom-itqcUH3K.js","/assets/clock-DUgslePm.js","/assets/correcting-BMr2zOdH.js","/assets/details-CiBmKqtX.js","/assets/draft-F6KWT7VO.js","/assets/events-8u-QJFQw.js","/assets/fit-MoSzrAjv.js","/assets/german-CoTpEG-D.js","/assets/jobframe-CNS9WC7e.js","/assets/outbox-BAH4HE5_.js","/assets/ownfacts-BAzUTB3r.js","/assets/planscreen-DU-qXUV_.js","/assets/record-BoYaFqs2.js","/assets/rules-CefMe0l3.js","/assets/rules-g6_CsZI5.css","/assets/when-CJ1OG5Oh.js"];
const shell = `shell-${"568a8c223fc6b3ac"}`;

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
