// Keeps the page for the next time without a network. The build puts before it
// what the site holds: site.name changes with any of it, site.files gives each
// file's digest.
//
// Never two versions in one page: a file whose name tells its content can be of
// one version only; the pages without such names are taken from the network
// while there is one, and otherwise from the same store as all they name. A
// store is filled whole or not at all: one file that is missing, or that is not
// what the build wrote, and nothing is kept. A browser may drop files later; the
// page asks whether all are there, and what is missing is fetched again. A newer version fills its own
// store, and takes the old one's place when no page of the old one is open.
"use strict";
const mine = `ruffwright ${registration.scope} `; // other pages of this host have stores of their own
const store = mine + site.name;
const slow_ms = 4000;
const place = (name) => name === "index.html" ? "./" : name; // some hosts send the first to the second
const hashed = (name) => /\.[0-9a-f]{12}\.[a-z]+$/.test(name);

const wanted = ([name, integrity]) =>
  new Request(place(name), { integrity, cache: hashed(name) ? "default" : "no-cache", credentials: "same-origin" });

addEventListener("install", (e) => {
  const fill = async () => {
    const cache = await caches.open(store);
    try {
      await cache.addAll(Object.entries(site.files).map(wanted));
    } catch (why) {
      await caches.delete(store);
      throw why;
    }
  };
  e.waitUntil(fill());
});

addEventListener("activate", (e) => {
  const tidy = async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(mine) && name !== store) await caches.delete(name);
    }
  };
  e.waitUntil(tidy());
});

// whole reports whether all files are in the store, once those that were not have
// been asked for.
const whole = async () => {
  const cache = await caches.open(store);
  const there = await Promise.all(Object.entries(site.files).map(async (file) =>
    await cache.match(place(file[0]), { ignoreVary: true }) ? true : cache.add(wanted(file)).then(() => true, () => false)));
  return there.every(Boolean);
};

addEventListener("message", (e) => {
  e.waitUntil(whole().catch(() => false).then((yes) => e.ports[0].postMessage(yes)));
});

const kept = async (name) => (await caches.open(store)).match(place(name), { ignoreVary: true });

// fresh asks the network first, and takes what is kept when it does not answer.
const fresh = async (request, name) => {
  const old = await kept(name);
  if (!old) return fetch(request);
  const late = new Promise((done) => setTimeout(() => done(old), slow_ms));
  const news = fetch(request).then((answer) => answer.status >= 500 ? old : answer, () => old);
  return Promise.race([news, late]);
};

addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  const folder = new URL("./", location.href);
  if (e.request.method !== "GET" || url.origin !== folder.origin || !url.pathname.startsWith(folder.pathname)) return;
  const name = url.pathname.slice(folder.pathname.length) || "index.html";
  if (!Object.hasOwn(site.files, name)) return;
  e.respondWith(hashed(name) ? kept(name).then((file) => file || fetch(e.request)) : fresh(e.request, name));
});
