// Keeps the page for offline use: a cache for each part, named by content. The build fills PARTS with
// {runtime: {hash, files: {url: sha256}, bytes: {url: length}}, app: {...}, workshop: {...}, families: {...}}.
// Runtime and app are for everybody; the workshop is filled when an author of knowledge first comes,
// families one by one when a kind of set is chosen, or all when somebody asks for that.

const PARTS = {};

const FOR_EVERYBODY = ["runtime", "app"];

const cacheName = (part) => `${part}-${PARTS[part].hash}`;
const fullUrl = (path) => new URL(path, self.registration.scope).href;
const partOf = new Map(
  Object.keys(PARTS).flatMap((part) => Object.keys(PARTS[part].files).map((path) => [fullUrl(path), part])),
);

self.addEventListener("install", (event) => event.waitUntil(storeVersion()));

self.addEventListener("activate", (event) => event.waitUntil(dropOld().then(() => self.clients.claim())));

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "store") event.waitUntil(storeAll(event.source));
  if (event.data === "store kinds") event.waitUntil(storeKinds(event.source));
  if (event.data.kind) event.waitUntil(storeKind(event.data.kind, event.source));
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
  const old = names.filter((name) => /^(app|families|runtime|workshop)-/.test(name) && !wanted.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** Before a version is offered it has all that the one before it had stored: no connection is needed then. */
async function storeVersion() {
  const names = await caches.keys();
  await storePart("app");
  if (names.some((name) => name.startsWith("runtime-"))) await storePart("runtime");
  for (const name of names.filter((each) => each.startsWith("families-"))) {
    const before = (await (await caches.open(name)).keys()).map(({url}) => url.split("/").at(-1));
    await storePart("families", () => {}, (path) => before.includes(path.split("/").at(-1)));
  }
}

/** Store what is missing, file by file, and tell the page how far it is. */
async function storeAll(page) {
  await telling(page, async () => {
    for (const part of FOR_EVERYBODY) await storePart(part, async () => page.postMessage(await state()));
  });
}

async function storeKind(id, page) {
  await telling(page, () => storePart("families", () => {}, (path) => path.endsWith(`/${id}.model`)));
}

/** Store every kind of set, and tell the page how many bytes are there. */
async function storeKinds(page) {
  const wanted = (await state()).kinds.bytesLeft;
  await telling(page, () => storePart("families", async () => {
    const now = await state();
    page.postMessage({...now, loading: {stored: wanted - now.kinds.bytesLeft, wanted}});
  }));
}

/** Do some work, then tell the page what is stored, or what went wrong. */
async function telling(page, work) {
  try {
    await work();
    page.postMessage(await state());
  } catch (error) {
    page.postMessage({...(await state()), failed: String(error.message ?? error)});
  }
}

/** Return {stored, wanted} files of the page, and {stored, all, bytesLeft} of the kinds of set. */
async function state() {
  const wanted = [...partOf.values()].filter((part) => FOR_EVERYBODY.includes(part)).length;
  const cache = await caches.open(cacheName("families"));
  const here = new Set((await cache.keys()).map(({url}) => url));
  const kinds = Object.entries(PARTS.families.bytes);
  const left = kinds.filter(([path]) => !here.has(fullUrl(path)));
  const bytesLeft = left.reduce((sum, [, bytes]) => sum + bytes, 0);
  return {stored: await storedFiles(), wanted, kinds: {stored: kinds.length - left.length, all: kinds.length, bytesLeft}};
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

/** Store the missing files of a part, or of those that are meant; `tell` is called after each. */
async function storePart(part, tell = () => {}, isMeant = () => true) {
  const cache = await caches.open(cacheName(part));
  for (const [path, sha256] of Object.entries(PARTS[part].files)) {
    if (!isMeant(path) || await cache.match(fullUrl(path))) continue;
    await storeFile(cache, fullUrl(path), sha256);
    await tell();
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
