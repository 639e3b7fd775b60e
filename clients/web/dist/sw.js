// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-B9FKCjRo.js","/assets/bounded-D-yxT_Ou.js","/assets/classroom-DCiF2TUw.js","/assets/clock-DUgslePm.js","/assets/correcting-DnaWfn3h.js","/assets/details-C-59SXTQ.js","/assets/draft-CeJEaY7f.js","/assets/events-Cmc47Jnp.js","/assets/fit-Br_vrAVt.js","/assets/german-DGJTsU3e.js","/assets/index-CZNY2nmJ.js","/assets/index-CZZuQDus.css","/assets/measured-ikxHvR-O.js","/assets/planscreen-B6xBRJvu.js","/assets/route-Cjb_BrSK.js","/assets/rules-C1cEvKoU.js","/assets/rules-g6_CsZI5.css","/assets/when-bPFR_Cah.js"];
const shell = `shell-${"417c29c255e2b94a"}`;

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
