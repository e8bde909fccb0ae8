import type { Component } from 'svelte';

const files = import.meta.glob<{ default: Component }>([
  '../../../../../docs/method/*.md',
  '../../../../../docs/sources.md',
]);

const loaders = new Map(
  Object.entries(files).map(([path, load]) => [path.replace(/^.*\/([\w-]+)\.md$/, '$1'), load]),
);

/** A page by its name, the list of them without one; null where there is no such page. */
export async function methodPage(name: string | undefined): Promise<Component | null> {
  const load = loaders.get(name ?? 'README');
  return load === undefined ? null : (await load()).default;
}
