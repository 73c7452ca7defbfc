// The keeper (a service worker): keeps every file of the site on this device and serves it from there. The files come
// in packs, each held to its SHA-256. The build puts KEPT, what is in which pack, in front of this text.

const keeper = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const scope = new URL("./", keeper.location.href).href;
/** @type {Map<string, string>} path -> the hash of its pack */
const packOf = new Map();
for (const [sha256, files] of Object.entries(KEPT.packs)) for (const [path] of files) packOf.set(path, sha256);
const CACHE = "barrowatt";

/** A worker takes its policy from its own script's response, and a static host may be unable to send one. */
const POLICY = {
  "text/javascript": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'",
  "text/html": "frame-ancestors 'none'",
};

keeper.addEventListener("install", (event) => event.waitUntil(install()));
keeper.addEventListener("activate", (event) => event.waitUntil(activate()));
keeper.addEventListener("fetch", (event) => {
  const path = pathOf(event.request);
  if (path !== undefined) event.respondWith(serve(path, event.request));
});
keeper.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(keeper.skipWaiting());
  if (event.data === "mend") event.waitUntil(keepAll().catch(() => {}));
  if (event.data === "count") event.waitUntil(count().then((counted) => event.ports[0].postMessage(counted)));
});

async function install() {
  await keepAll();
  // The first version has nobody to wait for; an update waits until the person asks for it.
  if (!keeper.registration.active) await keeper.skipWaiting();
}

async function activate() {
  const cache = await caches.open(CACHE);
  const wanted = new Set([...packOf.keys()].map(keyOf));
  for (const { url } of await cache.keys()) if (!wanted.has(url)) await cache.delete(url);
  await keeper.clients.claim();
}

/** Fetches what is not here yet; what has come stays, also when another file fails, so that the next try goes on. */
async function keepAll() {
  const cache = await caches.open(CACHE);
  const missing = await missingFrom(cache);
  const packs = new Set(missing.map((path) => /** @type {string} */ (packOf.get(path))));
  const keeping = [...packs].map((sha256) => keep(cache, sha256).then(tellProgress));
  const failed = (await Promise.allSettled(keeping)).find((kept) => kept.status === "rejected");
  if (!failed) return;
  await tellPages({ unsaved: failed.reason.name });
  throw failed.reason;
}

/**
 * Fetches a pack and keeps what is in it.
 * @param {Cache} cache
 * @param {string} sha256
 */
async function keep(cache, sha256) {
  const response = await fetch(addressOf(sha256), { cache: "no-store", integrity: `sha256-${base64(sha256)}` });
  if (!response.ok || !response.body) throw new Error(`${sha256}: ${response.status}`);
  const inflated = new Response(response.body.pipeThrough(new DecompressionStream("gzip")));
  const files = KEPT.packs[sha256];
  if (files.length === 1) return cache.put(keyOf(files[0][0]), new Response(inflated.body, { headers: headersOf(files[0][1]) }));
  const whole = await inflated.arrayBuffer();
  let end = 0;
  for (const [path, type, length] of files) {
    await cache.put(keyOf(path), new Response(whole.slice(end, end + length), { headers: headersOf(type) }));
    end += length;
  }
}

/**
 * The headers of a kept file: new ones, that carry no redirect, no age and no encoding of the host's.
 * @param {string} type
 */
function headersOf(type) {
  const headers = new Headers({ "Content-Type": type, "X-Content-Type-Options": "nosniff" });
  const policy = POLICY[/** @type {keyof POLICY} */ (type.split(";")[0])];
  if (policy) headers.set("Content-Security-Policy", policy);
  return headers;
}

/** @param {Cache} cache */
async function missingFrom(cache) {
  const present = new Set((await cache.keys()).map(({ url }) => url));
  return [...packOf.keys()].filter((path) => !present.has(keyOf(path)));
}

async function count() {
  const missing = await missingFrom(await caches.open(CACHE));
  return { version: KEPT.version, all: packOf.size, missing: missing.length };
}

async function tellProgress() {
  const { all, missing } = await count();
  await tellPages({ saving: { done: all - missing, all } });
}

/** @param {object} message */
async function tellPages(message) {
  const pages = await keeper.clients.matchAll({ type: "window", includeUncontrolled: true });
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
  if (packOf.has(file) || mode === "navigate") return file;
}

/**
 * @param {string} path
 * @param {Request} request
 */
async function serve(path, request) {
  if (packOf.has(path + "/index.html")) return Response.redirect(scope + path + "/" + new URL(request.url).search);
  const found = packOf.has(path) && (await (await caches.open(CACHE)).match(keyOf(path)));
  if (found) return found;
  try {
    return await fetch(request);
  } catch (problem) {
    if (request.mode !== "navigate" || path === "index.html") throw problem;
    return Response.redirect(scope);
  }
}

/** @param {string} sha256 */
function addressOf(sha256) {
  return `${scope}pack/${sha256}.pack`;
}

/** Where a file lies in the cache: by its pack, so that two versions lie side by side.  @param {string} path */
function keyOf(path) {
  return `${addressOf(packOf.get(path) ?? "")}?${path}`;
}

/** @param {string} hex */
function base64(hex) {
  return btoa(String.fromCharCode(...(hex.match(/../g) ?? []).map((byte) => parseInt(byte, 16))));
}
