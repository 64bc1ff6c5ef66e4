// Keeps the page for offline use: two caches, one for the runtime, one for the app, named by content.
// The build fills PARTS with {runtime: {hash, files: {url: sha256}}, app: {...}, workshop: {...}}. The
// workshop, what authors of knowledge need, is a third cache, filled when they first come.

const PARTS = {};

const FOR_EVERYBODY = ["runtime", "app"];

const cacheName = (part) => `${part}-${PARTS[part].hash}`;
const fullUrl = (path) => new URL(path, self.registration.scope).href;
const partOf = new Map(
  Object.keys(PARTS).flatMap((part) => Object.keys(PARTS[part].files).map((path) => [fullUrl(path), part])),
);

self.addEventListener("install", (event) => event.waitUntil(storePart("app")));

self.addEventListener("activate", (event) => event.waitUntil(dropOld().then(() => self.clients.claim())));

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "store") event.waitUntil(storeAll(event.source));
  if (event.data === "store workshop") event.waitUntil(storeWorkshop(event.source));
});

self.addEventListener("fetch", (event) => {
  const {request} = event;
  if (request.method !== "GET") return;
  const url = request.mode === "navigate" ? pageUrl(request.url) : request.url;
  if (partOf.has(url)) event.respondWith(fromStore(url, request));
});

/** A visit to the folder, with or without a query, is a visit to index.html. */
function pageUrl(url) {
  const {origin, pathname} = new URL(url);
  return pathname.endsWith("/") ? `${origin}${pathname}index.html` : `${origin}${pathname}`;
}

async function fromStore(url, request) {
  const cache = await caches.open(cacheName(partOf.get(url)));
  return (await cache.match(url)) ?? fetch(request);
}

async function dropOld() {
  const wanted = Object.keys(PARTS).map(cacheName);
  const names = await caches.keys();
  const old = names.filter((name) => /^(app|runtime|workshop)-/.test(name) && !wanted.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** Store what is missing, file by file, and tell the page how far it is. */
async function storeAll(page) {
  const wanted = [...partOf.values()].filter((part) => FOR_EVERYBODY.includes(part)).length;
  try {
    for (const part of FOR_EVERYBODY) {
      await storePart(part, (stored) => page.postMessage({stored, wanted}));
    }
    page.postMessage({stored: await storedFiles(), wanted});
  } catch (error) {
    page.postMessage({stored: 0, wanted, failed: String(error.message ?? error)});
  }
}

async function storeWorkshop(page) {
  try {
    await storePart("workshop");
    page.postMessage({workshop: true});
  } catch (error) {
    page.postMessage({workshop: false, failed: String(error.message ?? error)});
  }
}

async function storedFiles() {
  const counts = FOR_EVERYBODY.map(async (part) => (await (await caches.open(cacheName(part))).keys()).length);
  return (await Promise.all(counts)).reduce((sum, count) => sum + count, 0);
}

async function storePart(part, tell = () => {}) {
  const cache = await caches.open(cacheName(part));
  for (const [path, sha256] of Object.entries(PARTS[part].files)) {
    if (await cache.match(fullUrl(path))) continue;
    await storeFile(cache, fullUrl(path), sha256);
    tell(await storedFiles());
  }
}

/** Only bytes with the right hash are stored. */
async function storeFile(cache, url, sha256) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  const digest = await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer());
  const found = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  if (found !== sha256) throw new Error(`${url}: the file is not the one that was built`);
  await cache.put(url, response);
}
