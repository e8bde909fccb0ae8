/** Files of this address that a page names in `src` or `href`. */
export function filesNamedIn(page: string): string[] {
  const names = [...page.matchAll(/\s(?:src|href)="(\/[^"/][^"]*)"/g)].map(
    (match) => match[1] ?? '',
  );
  return [...new Set(names)];
}

/** What of a request the kept app can answer: the page for any screen, one of its files, or nothing. */
export type ShellAnswer = 'page' | 'file' | 'nothing';

export function shellAnswer(
  request: { readonly method: string; readonly mode: string; readonly url: string },
  shell: { readonly origin: string; readonly files: ReadonlySet<string> },
): ShellAnswer {
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== shell.origin) return 'nothing';
  // Figures, files people stored and pages that the server writes are never answered from memory.
  if (pathname === '/api' || pathname.startsWith('/api/')) return 'nothing';
  // Files below here never change under their name; one of them is made after the list of files is.
  if (shell.files.has(pathname) || pathname.startsWith('/_app/immutable/')) return 'file';
  return request.mode === 'navigate' && !/\.[a-z0-9]+$/i.test(pathname) ? 'page' : 'nothing';
}
