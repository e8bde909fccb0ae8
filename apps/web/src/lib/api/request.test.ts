import { describe, expect, it } from 'vitest';
import { addressOf, newKey } from './request.js';

describe('addressOf', () => {
  it('fills the path and encodes what people typed', () => {
    expect(addressOf('/api/parts/:partId/files/:name', { partId: 'p1', name: 'a/b #1' })).toBe(
      '/api/parts/p1/files/a%2Fb%20%231',
    );
  });
  it('appends the query, repeats lists and leaves empty values out', () => {
    expect(
      addressOf(
        '/api/parts',
        {},
        { search: 'X 210', status: ['a', 'b'], limit: 5, none: '', off: undefined },
      ),
    ).toBe('/api/parts?search=X+210&status=a&status=b&limit=5');
  });
  it('refuses an address with a hole', () => {
    expect(() => addressOf('/api/parts/:partId', {})).toThrow('needs partId');
  });
});

describe('newKey', () => {
  it('has the version and variant bits of RFC 9562 section 5.4', () => {
    const ones = newKey((bytes) => bytes.fill(0xff));
    expect(ones).toBe('ffffffff-ffff-4fff-bfff-ffffffffffff');
    const zeros = newKey((bytes) => bytes.fill(0));
    expect(zeros).toBe('00000000-0000-4000-8000-000000000000');
  });
});
