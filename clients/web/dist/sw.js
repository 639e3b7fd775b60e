// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-CUSotWK9.js","/assets/bounded-BrNRKNXh.js","/assets/classroom-DLSg1yFN.js","/assets/clock-DUgslePm.js","/assets/correcting-BaTO2wt4.js","/assets/details-B3Oygvw5.js","/assets/events-BPbM7P7R.js","/assets/facts-DyT1efED.js","/assets/fit-CrBdy-QQ.js","/assets/german-CfdCOfaC.js","/assets/index-BDZqO7Ab.css","/assets/index-BcDNBz6O.js","/assets/kinds-DTb3H9vb.js","/assets/outbox-Dvb7mu7H.js","/assets/planscreen-DFW_YZLS.js","/assets/route-DVicnd91.js","/assets/rules-CeO772WX.css","/assets/rules-XciysAcK.js","/assets/when-DrNWrrke.js"];
const shell = `shell-${"c523aa4edb84407f"}`;

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
