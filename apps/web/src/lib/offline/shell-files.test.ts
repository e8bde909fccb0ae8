import { describe, expect, it } from 'vitest';
import { filesNamedIn, shellAnswer } from './shell-files.js';

describe('filesNamedIn', () => {
  it('finds scripts, styles and the icon of this address, each once', () => {
    const page = `<link rel="icon" href="/icon.svg" /><script src="/_app/start.js"></script>
      <link href="/_app/a.css" rel="stylesheet"><link href="/_app/a.css" rel="preload">
      <a href="https://elsewhere.example/x.js">x</a><script src="//elsewhere.example/y.js"></script>`;
    expect(filesNamedIn(page)).toEqual(['/icon.svg', '/_app/start.js', '/_app/a.css']);
  });
});

describe('shellAnswer', () => {
  const shell = { origin: 'http://shop:8080', files: new Set(['/theme.js']) };
  const asked = (path: string, given: { method?: string; mode?: string } = {}) =>
    shellAnswer(
      { method: 'GET', mode: 'navigate', url: `http://shop:8080${path}`, ...given },
      shell,
    );

  it.each(['/', '/cell', '/cell/R1?x=1', '/orders/jobs/7'])('opens the app at %s', (path) => {
    expect(asked(path)).toBe('page');
  });
  it.each(['/theme.js', '/_app/immutable/start.0a1b.js'])('gives the file %s', (path) => {
    expect(asked(path, { mode: 'no-cors' })).toBe('file');
  });
  it.each(['/api/session', '/api', '/api/docs', '/sheet.pdf'])(
    'leaves %s to the server',
    (path) => {
      expect(asked(path)).toBe('nothing');
    },
  );
  it('leaves writes, other addresses and what is no screen to the network', () => {
    expect(asked('/cell', { method: 'POST' })).toBe('nothing');
    expect(asked('/cell', { mode: 'cors' })).toBe('nothing');
    const elsewhere = { method: 'GET', mode: 'navigate', url: 'http://other:8080/cell' };
    expect(shellAnswer(elsewhere, shell)).toBe('nothing');
  });
});
