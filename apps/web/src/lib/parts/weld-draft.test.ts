import { parts, type Weld } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { readNumber } from '../ui/number-text.js';
import { draftOfWeld, nextWeld, readWeld, type LengthUnit } from './weld-draft.js';

const weld: Weld = {
  id: '00000000-0000-4000-8000-000000000001',
  number: 3,
  jointType: 'fillet',
  throatMm: 4.5,
  legMm: null,
  grooveDepthMm: null,
  holeWidthMm: null,
  preparation: null,
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

const metric: LengthUnit = { read: readNumber, text: String };
const inches: LengthUnit = {
  read: (typed) => {
    const reading = readNumber(typed);
    return reading.kind === 'number' ? { ...reading, value: reading.value * 25.4 } : reading;
  },
  text: (value) => (value / 25.4).toFixed(4),
};

describe('readWeld', () => {
  it('reads back what was stored, in the shape that the contract asks for', () => {
    const stored = { ...weld, id: undefined };
    const reading = readWeld(draftOfWeld(weld, 0, metric), metric);
    expect(reading).toEqual({ ok: true, weld: stored });
    const body = { expectedVersion: 1, welds: reading.ok ? [reading.weld] : [] };
    expect(parts.setWelds.body.safeParse(body).success).toBe(true);
  });
  it('takes comma and point, and leaves an empty size open', () => {
    const draft = { ...draftOfWeld(weld, 0, metric), throatMm: '', legMm: '6,5', lengthMm: '0.5' };
    const reading = readWeld(draft, metric);
    expect(
      reading.ok && [reading.weld.throatMm, reading.weld.legMm, reading.weld.lengthMm],
    ).toEqual([null, 6.5, 0.5]);
  });
  it('independent: reads inches as 25.4 mm each, and sends a length that nobody typed over as it was stored', () => {
    const draft = draftOfWeld(weld, 0, inches);
    expect(draft.lengthMm).toBe('4.7244');
    const reading = readWeld({ ...draft, thicknessAMm: '0.5' }, inches);
    expect(reading.ok && reading.weld).toMatchObject({
      lengthMm: 120,
      throatMm: 4.5,
      thicknessAMm: 12.7,
      count: 2,
    });
  });
  it('names what is empty and what is no number', () => {
    const draft = {
      ...draftOfWeld(weld, 0, metric),
      lengthMm: '',
      throatMm: 'four',
      count: '1.200,5',
    };
    expect(readWeld(draft, metric)).toEqual({
      ok: false,
      problems: { lengthMm: 'missing', throatMm: 'notANumber', count: 'notANumber' },
    });
  });
});

describe('the preparation of a row', () => {
  const preparation = {
    ...{ kind: 'singleV' as const, gapMm: 2, rootFaceMm: 2, angleDeg: 60 },
    ...{ rootRadiusMm: 0, capHeightMm: 1, backing: 'none' as const },
  } as const;
  it.each([
    ['butt', preparation],
    ['fillet', null],
  ] as const)('of a %s weld', (jointType, sent) => {
    const draft = { ...draftOfWeld({ ...weld, preparation }, 0, metric), jointType };
    const reading = readWeld(draft, metric);
    expect(reading.ok && reading.weld.preparation).toEqual(sent);
  });
});

describe('nextWeld', () => {
  it('repeats the last row under the next free number, without its note', () => {
    const rows = [draftOfWeld({ ...weld, number: 7 }, 0, metric), draftOfWeld(weld, 1, metric)];
    expect(nextWeld(rows, 10)).toEqual({ ...rows[1], number: '8', notes: '', row: 2 });
  });
  it('starts with the first step of the part', () => {
    expect(nextWeld([], 20)).toMatchObject({ number: '1', stepNumber: '20', row: 0 });
  });
});
