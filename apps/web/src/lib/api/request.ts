import type { Route } from '@tackboard/contract';

export type Query = Readonly<Record<string, unknown>>;

/**
 * Fills the parameters of a route's path and appends the query; empty query values are left out.
 * Throws when a parameter of the path is missing, because such an address would name another thing.
 */
export function addressOf(path: string, params: Query = {}, query: Query = {}): string {
  const filled = path.replace(/:([A-Za-z]+)/g, (_whole, name: string) => {
    const value = params[name];
    if (value === undefined || value === null || value === '')
      throw new Error(`The address ${path} needs ${name}.`);
    return encodeURIComponent(String(value));
  });
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value === undefined || value === null || value === '') continue;
    for (const one of Array.isArray(value) ? (value as unknown[]) : [value])
      search.append(name, String(one));
  }
  const tail = search.toString();
  return tail === '' ? filled : `${filled}?${tail}`;
}

export function isWrite(route: Pick<Route, 'method'>): boolean {
  return route.method !== 'GET';
}

/**
 * A key that names one act, so that sending it twice counts once. `crypto.randomUUID` is missing
 * on plain http inside a shop, therefore the version 4 layout of RFC 9562 section 5.4 is built here.
 */
export function newKey(
  fill: (bytes: Uint8Array<ArrayBuffer>) => void = (bytes) => crypto.getRandomValues(bytes),
): string {
  const bytes = new Uint8Array(16);
  fill(bytes);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    hex.slice(12, 16),
    hex.slice(16, 20),
    hex.slice(20),
  ].join('-');
}
