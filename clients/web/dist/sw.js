// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-DDlkhui-.js","/assets/classroom-BLLbAS81.js","/assets/clock-DUgslePm.js","/assets/correcting-BBEkMTPI.js","/assets/details-CwVEx2Mw.js","/assets/draft-D7NyG69L.js","/assets/events-BirIP6er.js","/assets/fit-CtnqoBiR.js","/assets/german-CoTpEG-D.js","/assets/jobframe-CV06JV0A.js","/assets/planscreen-G7p5ODLL.js","/assets/rules-DPYtiwts.js","/assets/rules-m4j9v7kq.css","/assets/when-C7D-URsE.js"];
const shell = `shell-${"3d3212d5ee0ceba9"}`;

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
