import { expect, it } from 'vitest';
import { projectFiles, textOf } from './tracked.js';

/**
 * What tells the items of a list apart on a screen: the id of a record, a name from a closed set, or the place in
 * the list. A text can come twice, and a screen stops at the second.
 */
const comesOnce = [
  /^(at|place|id|key|value)$/,
  /^\w+\.(id|\w+Id|code|seq|row|key|value|href)$/,
  /^`(\$\{\w+\.\w+Id\} ?)+`$/,
  /^moveKey\(move\)$/,
  /^rowKey\?\.\(row\) \?\? place$/,
];

const shapes = [
  /\{#each (?:(?!\}\n).)*? as (?:\{[^}]*\}|\[[^\]]*\]|\w+)(?:, \w+)? \(((?:[^()]|\([^()]*\))*)\)\}/g,
  /rowKey=\{\(row\) => ((?:[^{}]|\{[^{}]*\})*)\}/g,
];

const keysIn = (text: string): string[] =>
  shapes.flatMap((shape) => [...text.matchAll(shape)].map(([, key]) => key ?? ''));

const screens = projectFiles().filter((path) => /^apps\/web\/src\/.*\.svelte$/.test(path));

it('finds the key of each list', () => {
  const lists =
    screens
      .map(textOf)
      .join('\n')
      .match(/\{#each |rowKey=/g) ?? [];
  expect(keysIn(screens.map(textOf).join('\n'))).toHaveLength(lists.length);
});

it.each(screens)('%s tells no items of a list apart by a text', (path) => {
  const unsafe = keysIn(textOf(path)).filter((key) => !comesOnce.some((shape) => shape.test(key)));
  expect(unsafe).toEqual([]);
});
