// The page's own files are kept on the device, so that it opens and goes on where there is no network. Calls of the service are
// never kept here: what is entered waits in the page's own database until it is acknowledged.
const files = ["/","/icon.svg","/manifest.webmanifest","/assets/classroom-B6Y2_UKd.js","/assets/index-BwLeGCZc.js","/assets/index-D6VklsTA.css","/assets/rules-Dfa62G1x.js"];
const shell = `shell-${"0a376c5e693d5d34"}`;

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
