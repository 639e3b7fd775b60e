// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-FP93YvJF.js","/assets/bounded-D-yxT_Ou.js","/assets/classroom-BmZqJ9NU.js","/assets/clock-DUgslePm.js","/assets/correcting-DfSO4Cj4.js","/assets/details-JsBh1DSb.js","/assets/draft-CDTpF3JN.js","/assets/events-VqI5jzHz.js","/assets/fit-D-PfqCQr.js","/assets/german-DGJTsU3e.js","/assets/index-CZZuQDus.css","/assets/index-D-YTbDL8.js","/assets/measured-D-53JP79.js","/assets/planscreen-CYwxNPi1.js","/assets/route-Cjb_BrSK.js","/assets/rules-Dkbr_EYt.js","/assets/rules-g6_CsZI5.css","/assets/when-bPFR_Cah.js"];
const shell = `shell-${"0090c1d113b026da"}`;

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
