import { expect, it } from 'vitest';
import { clockWords, momentOf } from './moments.js';

const now = new Date('2026-10-05T08:00:00.000Z');
const notBefore = new Date('2026-10-05T07:00:00.000Z');
const moment = (happenedAt: string | null) => momentOf({ happenedAt, now, notBefore });

it.each([
  ['nothing said', null, '2026-10-05T08:00:00.000Z', null],
  ['said afterwards', '2026-10-05T07:20:00.000Z', '2026-10-05T07:20:00.000Z', null],
  ['before the run began', '2026-10-05T06:00:00.000Z', '2026-10-05T07:00:00.000Z', null],
  ['two minutes ahead', '2026-10-05T08:02:00.000Z', '2026-10-05T08:00:00.000Z', null],
  ['more than two minutes ahead', '2026-10-05T08:02:01.000Z', '2026-10-05T08:00:00.000Z', 121],
])('%s', (_words, happenedAt, at, clockAheadS) => {
  expect(moment(happenedAt)).toEqual({ at: new Date(at), clockAheadS });
});

it('reads the wall clock of the shop', () => {
  expect(clockWords('2026-10-05T08:42:07.000Z', 'Europe/Berlin')).toBe('10:42:07');
  expect(clockWords(new Date('2026-12-05T08:42:07.900Z'), 'Europe/Berlin')).toBe('09:42:07');
});
