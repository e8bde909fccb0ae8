import { parts, type Weld } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { draftOfWeld, nextWeld, readWeld } from './weld-draft.js';

const weld: Weld = {
  id: '00000000-0000-4000-8000-000000000001',
  number: 3,
  jointType: 'fillet',
  throatMm: 4.5,
  legMm: null,
  grooveDepthMm: null,
  lengthMm: 120,
  count: 2,
  thicknessAMm: 8,
  thicknessBMm: 10,
  materialA: 'S355J2',
  materialB: 'S355J2',
  materialGroupA: '1.2',
  materialGroupB: '1.2',
  position: 'PB',
  process: '135',
  stepNumber: 10,
  qualityLevel: 'C',
  sizeUnderMm: null,
  sizeOverMm: null,
  notes: 'grind the end',
};

describe('readWeld', () => {
  it('reads back what was stored, in the shape that the contract asks for', () => {
    const stored = { ...weld, id: undefined };
    const reading = readWeld(draftOfWeld(weld, 0));
    expect(reading).toEqual({ ok: true, weld: stored });
    const body = { expectedVersion: 1, welds: reading.ok ? [reading.weld] : [] };
    expect(parts.setWelds.body.safeParse(body).success).toBe(true);
  });
  it('takes comma and point, and leaves an empty size open', () => {
    const draft = { ...draftOfWeld(weld, 0), throatMm: '', legMm: '6,5', lengthMm: '0.5' };
    const reading = readWeld(draft);
    expect(
      reading.ok && [reading.weld.throatMm, reading.weld.legMm, reading.weld.lengthMm],
    ).toEqual([null, 6.5, 0.5]);
  });
  it('names what is empty and what is no number', () => {
    const draft = { ...draftOfWeld(weld, 0), lengthMm: '', throatMm: 'four', count: '1.200,5' };
    expect(readWeld(draft)).toEqual({
      ok: false,
      problems: { lengthMm: 'missing', throatMm: 'notANumber', count: 'notANumber' },
    });
  });
});

describe('nextWeld', () => {
  it('repeats the last row under the next free number, without its note', () => {
    const rows = [draftOfWeld({ ...weld, number: 7 }, 0), draftOfWeld(weld, 1)];
    expect(nextWeld(rows, 10)).toEqual({ ...rows[1], number: '8', notes: '', row: 2 });
  });
  it('starts with the first step of the part', () => {
    expect(nextWeld([], 20)).toMatchObject({ number: '1', stepNumber: '20', row: 0 });
  });
});
