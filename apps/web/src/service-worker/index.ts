import { build, files, version } from '$service-worker';
import { filesNamedIn, shellAnswer } from '../lib/offline/shell-files.js';

/**
 * Keeps the app itself, so that a cell screen opens without network. Figures are not kept here: the screens
 * keep what they showed last, with its age. Each build has a store of its own and replaces the one before.
 */
declare const self: ServiceWorkerGlobalScope;

const prefix = 'app-';
const store = `${prefix}${version}`;
const pagePath = '/';
const shell = { origin: self.location.origin, files: new Set([...build, ...files]) };

self.addEventListener('install', (event) => {
  event.waitUntil(keepShell().then(async () => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOlder().then(async () => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const answer = shellAnswer(event.request, shell);
  if (answer === 'nothing') return;
  event.respondWith(answer === 'page' ? kept(pagePath, event.request) : kept(event.request));
});

/** All or nothing: with a file missing, the former app stays. */
async function keepShell(): Promise<void> {
  const page = await fetch(pagePath, { cache: 'no-store' });
  if (!page.ok) throw new Error(`The page was answered with ${page.status}.`);
  const named = filesNamedIn(await page.clone().text());
  const cache = await caches.open(store);
  await cache.addAll([...new Set([...shell.files, ...named])]);
  await cache.put(pagePath, page);
}

async function dropOlder(): Promise<void> {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(prefix) && name !== store);
  await Promise.all(older.map(async (name) => caches.delete(name)));
}

async function kept(wanted: RequestInfo, request: Request = wanted as Request): Promise<Response> {
  const cache = await caches.open(store);
  return (await cache.match(wanted)) ?? fetch(request);
}
