// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-Db4C-AuE.js","/assets/classroom-byjGT4Yi.js","/assets/clock-DUgslePm.js","/assets/correcting-CaC2DFu9.js","/assets/details-C1ejCq-6.js","/assets/draft-C2g8rkPp.js","/assets/events-DErbOwzv.js","/assets/fit-ESFnRgSg.js","/assets/german-CoTpEG-D.js","/assets/jobframe-BFMBztso.js","/assets/ownfacts-BfxHD5J6.js","/assets/planscreen-BzKK5ayn.js","/assets/record-IlbSC1yM.js","/assets/rules-CllCQiLT.js","/assets/rules-m4j9v7kq.css","/assets/when-C-myhhTd.js"];
const shell = `shell-${"6fa91613ae704b86"}`;

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
