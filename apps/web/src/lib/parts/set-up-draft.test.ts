import { parts } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { setUpBody, setUpDraft } from './set-up-draft.js';

const cellId = '00000000-0000-4000-8000-000000000001';
const programId = '00000000-0000-4000-8000-000000000002';

describe('setUpBody', () => {
  it('has the shape that the contract asks for, also where nothing is chosen', () => {
    const body = setUpBody(setUpDraft(), cellId, []);
    expect(parts.freezeSetUp.body.safeParse(body).success).toBe(true);
    expect(body).toMatchObject({ wireItemId: null, programId: null, programRevision: null });
  });
  it('keeps the revision that the program has today', () => {
    const body = setUpBody({ ...setUpDraft(), programId }, cellId, [
      { id: programId, revision: '4' },
    ]);
    expect([body.programId, body.programRevision]).toEqual([programId, '4']);
  });
  it('takes each line as one thing to watch and leaves no empty one', () => {
    const draft = { ...setUpDraft(), watchOuts: ' Clamp 3 first \n\nWeb leans\n' };
    expect(setUpBody(draft, cellId, []).watchOuts).toEqual(['Clamp 3 first', 'Web leans']);
  });
});
