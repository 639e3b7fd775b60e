// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CTRTX19I.js","/assets/classroom-3wmIkTdB.js","/assets/clock-DUgslePm.js","/assets/correcting-D6mkm38P.js","/assets/details-UIfgQ-SD.js","/assets/draft-1xjOPw1b.js","/assets/events-DzjyEcI_.js","/assets/fit-CsUnwKvN.js","/assets/german-BBeDNPMu.js","/assets/rules-BGRU9v_e.js","/assets/rules-m4j9v7kq.css","/assets/when-DRCUK58z.js"];
const shell = `shell-${"34f3bcc6e075e913"}`;

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
