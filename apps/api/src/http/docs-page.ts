import type { Access, Route } from '@tackboard/contract';
import { refusalsOf } from './register-route.js';

/** A page to read: every operation with who may call it and how it can refuse. No script, no style from elsewhere. */
export function docsPage(routes: readonly Route[]): string {
  const areas = [...new Set(routes.map((route) => route.area))];
  const sections = areas.map((area) => {
    const rows = routes.filter((route) => route.area === area).map(rowOf);
    return `<h2>${escape(area)}</h2><table><thead><tr><th>Operation</th><th>What it does</th><th>Who</th><th>Refusals</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
  });
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Tackboard: operations</title><meta name="viewport" content="width=device-width"></head><body><main><h1>Operations of the service</h1><p>The full shapes are in <a href="/api/openapi.json">openapi.json</a>. Writes take an <code>Idempotency-Key</code>; changes to rows take the version that was read.</p>${sections.join('')}</main></body></html>`;
}

function rowOf(route: Route): string {
  return `<tr><td><code>${route.method} ${escape(route.path)}</code></td><td>${escape(route.summary)}</td><td>${escape(accessWords(route.access))}</td><td>${escape(refusalsOf(route).join(', '))}</td></tr>`;
}

function accessWords(access: Access): string {
  switch (access.kind) {
    case 'public':
      return 'anyone';
    case 'tablet':
      return 'a registered cell tablet';
    case 'tabletOrPerson':
      return 'a registered cell tablet, or anyone signed in';
    case 'person':
      return `${access.roles.join(', ')}${coordinatorWords(access.coordinator)}`;
  }
}

function coordinatorWords(coordinator: 'needed' | 'enough' | undefined): string {
  if (coordinator === undefined) return '';
  return coordinator === 'needed'
    ? ', with the coordinator’s authority'
    : ', and whoever has the coordinator’s authority';
}

function escape(text: string): string {
  return text
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}
