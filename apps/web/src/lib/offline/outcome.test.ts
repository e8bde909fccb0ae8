import { refusals, type RefusalCode } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { ApiRefusal, NotReached } from '../api/refusal.js';
import { outcomeOf } from './outcome.js';

const refusal = (code: RefusalCode) =>
  new ApiRefusal({ code, message: 'No.', fields: [], current: null, requestId: 'r' });

describe('outcomeOf', () => {
  it('keeps what got no answer, a fault of the server, or too many at once', () => {
    for (const error of [new NotReached(), refusal('INTERNAL'), refusal('TOO_MANY_ATTEMPTS')])
      expect(outcomeOf(error)).toEqual({ kind: 'unanswered' });
  });
  it('asks who is there when the server does', () => {
    expect(outcomeOf(refusal('NOT_SIGNED_IN'))).toEqual({ kind: 'signedOut' });
  });
  it('takes every other refusal as the answer', () => {
    const others = (Object.keys(refusals) as RefusalCode[]).filter(
      (code) => !['INTERNAL', 'TOO_MANY_ATTEMPTS', 'NOT_SIGNED_IN'].includes(code),
    );
    for (const code of others)
      expect(outcomeOf(refusal(code))).toEqual({
        kind: 'refused',
        as: { code, message: 'No.', fields: [] },
      });
  });
  it('hides no fault of this program', () => {
    expect(() => outcomeOf(new TypeError('x is undefined'))).toThrow(TypeError);
  });
});
