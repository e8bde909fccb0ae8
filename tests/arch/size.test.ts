import { describe, expect, it } from 'vitest';
import { projectFiles, textOf } from './tracked.js';

const mostLines = 400;
const written = /\.(ts|js|mjs|svelte|css)$/;

describe('size of files', () => {
  it(`no source file is longer than ${mostLines} lines`, () => {
    const sources = projectFiles().filter((path) => written.test(path));
    expect(sources.length).toBeGreaterThan(20);
    const tooLong = sources
      .map((path) => ({ path, lines: textOf(path).trimEnd().split('\n').length }))
      .filter(({ lines }) => lines > mostLines);
    expect(tooLong).toEqual([]);
  });
});
