import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { compile } from 'svelte/compiler';
import { describe, expect, it } from 'vitest';
import { markdownMarkup, markdownPages } from '../../../adapter/markdown-pages.js';

const docs = path.resolve(import.meta.dirname, '../../../../../docs');
const pages = [
  path.join(docs, 'sources.md'),
  ...readdirSync(path.join(docs, 'method')).map((name) => path.join(docs, 'method', name)),
];

describe('a page of Markdown as markup', () => {
  it.each([
    ['a script', 'a <script>alert(1)</script> b'],
    ['a script of its own', '<script>\nalert(1)\n</script>'],
    ['a handler', 'x <b onclick="go()">y</b>'],
    ['an image', '![words](https://example.org/x.png)'],
    ['a style', '<style>\np { color: red }\n</style>'],
  ])('keeps no tag of %s', (_what, text) => {
    expect(markdownMarkup(text)).not.toMatch(/<(?!\/?p>)/);
  });
  it('begins no expression', () => {
    const markup = markdownMarkup(
      'a {b} `{c}` {@html d}\n\n```calc\nf({ e: 1 }) = 2 mm\n```\n\n# {g}',
    );
    expect(markup).not.toMatch(/[{}]/);
    expect(markup).toContain('f(&#123; e: 1 &#125;) = 2 mm');
  });
  it('links to pages of the screens and to the web by https, and to nothing else', () => {
    expect(markdownMarkup('[a](duty.md#x) [b](README.md) [c](../sources.md)')).toBe(
      '<p><a href="/method/duty">a</a> <a href="/method">b</a> <a href="/method/sources">c</a></p>\n',
    );
    expect(markdownMarkup('[a](javascript:go()) [b](../../x/y.ts) [c](http://example.org)')).toBe(
      '<p>a b c</p>\n',
    );
    expect(markdownMarkup('[a](https://example.org/b)')).toContain('href="https://example.org/b"');
  });
  it('writes signs once, and keeps sub- and superscripts', () => {
    expect(markdownMarkup('a < b & `c < d`, t<sub>8/5</sub> "e"')).toBe(
      '<p>a &lt; b &amp; <code>c &lt; d</code>, t<sub>8/5</sub> &quot;e&quot;</p>\n',
    );
  });
  it('leaves out where the code stands', () => {
    expect(markdownMarkup('How wide. Code: `packages/a.ts`,\n`packages/b.ts`.\n')).toBe(
      '<p>How wide.</p>\n',
    );
  });
  it('takes the pages of the documents alone', () => {
    const { markup } = markdownPages();
    expect(markup({ content: '# a', filename: '/x/docs/method/duty.md' })).toEqual({
      code: '<h1>a</h1>\n',
    });
    expect(markup({ content: '{a}', filename: '/x/src/b.svelte' })).toBeUndefined();
  });
});

describe('every page that explains figures', () => {
  it.each(pages)('%s is a component without script, style or a path of the code', (file) => {
    const markup = markdownMarkup(readFileSync(file, 'utf8'));
    expect(markup).toMatch(/^<h1>/);
    expect(markup).not.toMatch(/<(script|style|img)|style=|Code: /);
    expect(compile(markup, { generate: 'client' }).warnings).toEqual([]);
  });
  it('links only to pages that there are', () => {
    const names = pages.map((file) => path.basename(file, '.md'));
    const links = pages.flatMap((file) =>
      [...markdownMarkup(readFileSync(file, 'utf8')).matchAll(/href="\/method\/([^"]*)"/g)].map(
        ([, name]) => name,
      ),
    );
    expect(links.length).toBeGreaterThan(10);
    expect(links.filter((name) => !names.includes(name ?? ''))).toEqual([]);
  });
});
