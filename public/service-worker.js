// Keeps all of Longtom on the device, so that it works without a signal.
//
// What a page can rely on:
//
// * Nothing is half stored. All files of a version, each checked against its digest, go
//   into one cache of that version's name, or the version is not installed.
// * Versions never mix. A page and its parts come from the one cache, and names carry
//   their content: a page of another version is refused a part, never given a wrong one.
// * Once installed, nothing is fetched but the browser's own look for a new version. What
//   is not stored is refused with a plain 504.
// * A new version waits until it is told to take over.
//
// What a page sends, and what it is sent:
//
//   to registration.active    { kind: "stored?" }
//     answered by   { kind: "stored", version, files, bytes }   all is on this device
//              or   { kind: "not stored", version }             something was cleared away,
//                                                               and could not be fetched again
//   to registration.waiting   { kind: "change over" }
//     answered by   controllerchange on navigator.serviceWorker, in every open page
//
// What a page must do: if it had a controller when it was loaded, then on controllerchange
// finish saving and reload, once. (Without one, the event tells only that the first visit
// is now stored.) Every open page gets the event, so all change over together; one that
// was asleep gets it on waking.

const VERSION = "built/version";
// [address seen from here, bytes, digest]; "./" is the page itself.
const FILES = "built/files";

// Several copies may live under one host, in different folders, and share its caches.
const OURS = `longtom ${registration.scope} `;
const CACHE = OURS + VERSION;
const PAGE = registration.scope;
const BYTES = new Map(FILES.map(([address, bytes]) => [new URL(address, PAGE).href, bytes]));

async function store(cache, [address, , integrity]) {
  const url = new URL(address, PAGE).href;
  // Named by its content: then what the browser fetched for the page will do, and a
  // weak signal is not asked for it twice. The digest is checked either way.
  const kept = /-[0-9a-f]{16}\.\w+$/.test(url);
  const answer = await fetch(url, { cache: kept ? "default" : "reload", integrity });
  if (!answer.ok || answer.redirected) throw new Error(`${url}: ${answer.status}`);
  await cache.put(url, answer);
}

async function install() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(FILES.map((file) => store(cache, file)));
    // An older version that took over meanwhile has cleared this one away.
    if (!(await caches.has(CACHE))) throw new Error("cleared away while being stored");
  } catch (problem) {
    await caches.delete(CACHE);
    throw problem;
  }
}

async function activate() {
  const others = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(others.map((name) => caches.delete(name)));
  // The first visit's page is of this very version; later ones change over by reloading.
  if (others.length === 0) await clients.claim();
}

async function answer(request) {
  const cache = await caches.open(CACHE);
  const url = new URL(request.url);
  url.hash = "";
  if (request.mode === "navigate") url.search = "";
  const page = await cache.match(PAGE);
  // Cleared away behind our back: stand aside, rather than serve a part of the whole.
  if (!page) return fetch(request);
  if (request.method === "GET") {
    const stored = BYTES.has(url.href) && await cache.match(url.href);
    if (stored) return stored;
    if (request.mode === "navigate") {
      return url.href === `${PAGE}index.html` ? page : Response.redirect(PAGE);
    }
  }
  return new Response("This is not stored on this device.\n", {
    status: 504,
    headers: { "Content-Type": "text/plain; charset=utf-8" },
  });
}

// Fetches again what was cleared away, as long as the host still has this version.
async function mend(cache) {
  const there = new Set((await cache.keys()).map(({ url }) => url));
  const missing = FILES.filter(([address]) => !there.has(new URL(address, PAGE).href));
  return Promise.all(missing.map((file) => store(cache, file))).then(() => true, () => false);
}

async function tellStored(page) {
  const whole = await mend(await caches.open(CACHE));
  const bytes = [...BYTES.values()].reduce((sum, each) => sum + each, 0);
  page.postMessage(whole
    ? { kind: "stored", version: VERSION, files: BYTES.size, bytes }
    : { kind: "not stored", version: VERSION });
}

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("fetch", (event) => event.respondWith(answer(event.request)));
addEventListener("message", (event) => {
  if (event.data?.kind === "change over") event.waitUntil(skipWaiting());
  if (event.data?.kind === "stored?" && event.source) event.waitUntil(tellStored(event.source));
});
