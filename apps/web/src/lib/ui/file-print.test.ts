import { afterEach, describe, expect, it, vi } from 'vitest';
import { printOfFile } from './file-print.js';

afterEach(() => vi.unstubAllGlobals());

describe('the fingerprint of a file', () => {
  it('printed: FIPS 180-2, appendix B.1, SHA-256 of "abc"', async () => {
    expect(await printOfFile(new Blob(['abc']))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });
  it('differs where one letter does', async () => {
    expect(await printOfFile(new Blob(['abd']))).not.toBe(await printOfFile(new Blob(['abc'])));
  });
  it('is none where the browser does not offer it', async () => {
    vi.stubGlobal('crypto', {});
    expect(await printOfFile(new Blob(['abc']))).toBeNull();
  });
});
