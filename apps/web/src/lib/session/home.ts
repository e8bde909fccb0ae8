import type { SessionView } from '@tackboard/contract';

type Role = NonNullable<SessionView['person']>['role'];

const homes = {
  office: '/board',
  welder: '/cell',
  qa: '/procedures',
  manager: '/week',
} as const satisfies Record<Role, string>;

/** Addresses that nobody needs to be signed in for. */
const openPaths = ['/sign-in', '/first-run'];

/** The first screen of a person, or of a device nobody is signed in at. */
export function homeOf(view: SessionView): string {
  if (view.firstRun) return '/first-run';
  if (view.person !== null) return view.tablet === null ? homes[view.person.role] : '/cell';
  return view.tablet === null ? '/sign-in' : '/cell';
}

/**
 * Where to send someone who opened `path`; null to stay. At a registered tablet the cell screens can be
 * read while nobody is signed in. Only paths of this site are ever returned to after signing in.
 */
export function wayFrom(view: SessionView, path: string): string | null {
  if (view.firstRun) return path === '/first-run' ? null : '/first-run';
  // The first manager goes on by adding the other people.
  if (path === '/first-run' && view.person !== null) return '/people';
  if (path === '/' || path === '/first-run') return homeOf(view);
  if (view.person !== null || openPaths.includes(path)) return null;
  if (view.tablet !== null && (path === '/cell' || path.startsWith('/cell/'))) return null;
  return `/sign-in?then=${encodeURIComponent(path)}`;
}

/** The address to go to after signing in, taken from the query; anything but a path of this site is ignored. */
export function returnPath(then: string | null, view: SessionView): string {
  if (then === null || !then.startsWith('/') || then.startsWith('//') || then.includes('\\'))
    return homeOf(view);
  return then === '/' || openPaths.includes(then) ? homeOf(view) : then;
}
