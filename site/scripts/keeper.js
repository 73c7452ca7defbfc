// The keeper (a service worker): keeps every file of the site on this device, each under its own SHA-256, and
// serves it from there. The build puts KEPT, the list of files, in front of this text.

const scope = new URL("./", self.location.href).href;
const CACHE = "barrowatt";

/** A worker takes its policy from its own script's response, and a static host may be unable to send one. */
const POLICY = {
  "text/javascript": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'",
  "text/html": "frame-ancestors 'none'",
};

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => {
  const path = pathOf(event.request);
  if (path !== undefined) event.respondWith(serve(path, event.request));
});
self.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(self.skipWaiting());
  if (event.data === "mend") event.waitUntil(keepAll().catch(() => {}));
  if (event.data === "count") event.waitUntil(count().then((counted) => event.ports[0].postMessage(counted)));
});

async function install() {
  await keepAll();
  // The first version has nobody to wait for; an update waits until the person asks for it.
  if (!self.registration.active) await self.skipWaiting();
}

async function activate() {
  const cache = await caches.open(CACHE);
  const wanted = new Set(Object.keys(KEPT.files).map(keyOf));
  for (const { url } of await cache.keys()) if (!wanted.has(url)) await cache.delete(url);
  await self.clients.claim();
}

/** Fetches what is not here yet; what has come stays, also when another file fails, so that the next try goes on. */
async function keepAll() {
  const cache = await caches.open(CACHE);
  const missing = await missingFrom(cache);
  const keeping = missing.map((path) => keep(cache, path).then(tellProgress));
  const failed = (await Promise.allSettled(keeping)).find(({ status }) => status === "rejected");
  if (!failed) return;
  await tellPages({ unsaved: failed.reason.name });
  throw failed.reason;
}

/**
 * @param {Cache} cache
 * @param {string} path
 */
async function keep(cache, path) {
  const [sha256, type] = KEPT.files[path];
  const response = await fetch(keyOf(path), { cache: "no-store", integrity: `sha256-${base64(sha256)}` });
  if (!response.ok || !response.body) throw new Error(`${path}: ${response.status}`);
  const headers = new Headers({ "Content-Type": type, "X-Content-Type-Options": "nosniff" });
  const policy = POLICY[/** @type {keyof POLICY} */ (type.split(";")[0])];
  if (policy) headers.set("Content-Security-Policy", policy);
  // A new response: it carries no redirect, no age and no encoding of the host's.
  const inflated = response.body.pipeThrough(new DecompressionStream("gzip"));
  await cache.put(keyOf(path), new Response(inflated, { headers }));
}

/** @param {Cache} cache */
async function missingFrom(cache) {
  const present = new Set((await cache.keys()).map(({ url }) => url));
  return Object.keys(KEPT.files).filter((path) => !present.has(keyOf(path)));
}

async function count() {
  const missing = await missingFrom(await caches.open(CACHE));
  return { version: KEPT.version, all: Object.keys(KEPT.files).length, missing: missing.length };
}

async function tellProgress() {
  const { all, missing } = await count();
  await tellPages({ saving: { done: all - missing, all } });
}

/** @param {object} message */
async function tellPages(message) {
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  for (const page of pages) page.postMessage(message);
}

/**
 * The file a request asks for, if it is one of ours; the question in a page's address is the page's own business.
 * @param {Request} request
 */
function pathOf({ method, mode, url }) {
  const address = new URL(url);
  const plain = address.origin + address.pathname;
  if (method !== "GET" || !plain.startsWith(scope)) return;
  const path = decodeURI(plain.slice(scope.length));
  const file = path === "" || path.endsWith("/") ? path + "index.html" : path;
  if (file in KEPT.files || mode === "navigate") return file;
}

/**
 * @param {string} path
 * @param {Request} request
 */
async function serve(path, request) {
  if (path + "/index.html" in KEPT.files) return Response.redirect(scope + path + "/" + new URL(request.url).search);
  const found = path in KEPT.files && (await (await caches.open(CACHE)).match(keyOf(path)));
  if (found) return found;
  try {
    return await fetch(request);
  } catch (problem) {
    if (request.mode !== "navigate" || path === "index.html") throw problem;
    return Response.redirect(scope);
  }
}

/** @param {string} path */
function keyOf(path) {
  return `${scope}pack/${KEPT.files[path][0]}.pack`;
}

/** @param {string} hex */
function base64(hex) {
  return btoa(String.fromCharCode(...(hex.match(/../g) ?? []).map((byte) => parseInt(byte, 16))));
}
