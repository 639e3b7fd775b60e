// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/bayscreen-BKcbUBut.js","/assets/bounded-xyRZ1dqp.js","/assets/classroom-D8OTXRoK.js","/assets/clock-DUgslePm.js","/assets/correcting-BvhOG5al.js","/assets/details-CmmsfBST.js","/assets/draft-BCDb-8vg.js","/assets/events-BvVkuBGy.js","/assets/fit-BcFry35l.js","/assets/german-DGJTsU3e.js","/assets/index-CKKy0yTC.js","/assets/job-Dnm6B8YH.js","/assets/jobframe-C7E8J8zS.js","/assets/outbox-DwEQ4Ar2.js","/assets/ownfacts-BlfxZqoN.js","/assets/planscreen-BpIHIBou.js","/assets/record-BuBdT0ox.js","/assets/rules-DrIOQ5Ro.js","/assets/stream-B-7hj5Qe.js","/assets/ticks-DRYBhP62.js","/assets/when-Bzg1Odsi.js"];
const shell = `shell-${"ce98f653743f8adf"}`;

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
