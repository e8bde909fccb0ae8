import { describe, expect, it } from 'vitest';
import { numbered, partsOf } from './lots-used.js';

const at = (clock: string) => new Date(`2026-10-05T${clock}:00.000Z`);
const run = { cellId: 'R1', startedAt: at('07:00'), endedAt: at('11:00') };
const load = (from: string, to: string | null, cellId = 'R1') => ({
  cellId,
  loadedAt: at(from),
  unloadedAt: to === null ? null : at(to),
});
const count = (clock: string, good: number, scrap = 0) => ({
  ...{ cellId: 'R1', at: at(clock), runStartedAt: run.startedAt, good, scrap },
});

describe('parts counted one by one', () => {
  const counts = numbered([
    ...['07:10', '07:20', '07:30', '07:40', '07:50', '08:00', '08:10'].map((each) =>
      count(each, 1),
    ),
    ...['08:40', '08:50', '09:00', '09:10', '09:20'].map((each) => count(each, 1)),
  ]);
  const parts = (span: ReturnType<typeof load>) => partsOf(span, { runs: [run], counts });

  it('belong to the lot that hung there: changed after part 7, the second lot has parts 8 to 12', () => {
    expect(parts(load('06:00', '08:30'))).toEqual({ fromPart: 1, toPart: 7 });
    expect(parts(load('08:30', null))).toEqual({ fromPart: 8, toPart: 12 });
  });

  it('a lot that was on and off between two parts has none, one of another time or cell is no part of it', () => {
    expect(parts(load('08:15', '08:20'))).toBeNull();
    expect(parts(load('05:00', '07:00'))).toBeUndefined();
    expect(parts(load('11:00', null))).toBeUndefined();
    expect(parts(load('06:00', null, 'M1'))).toBeUndefined();
  });
});

describe('parts counted together', () => {
  it('belong to every lot since the count before', () => {
    const counts = numbered([count('08:00', 4), count('09:00', 5, 1), count('10:00', 2)]);
    const parts = (span: ReturnType<typeof load>) => partsOf(span, { runs: [run], counts });
    expect(parts(load('06:00', '08:30'))).toEqual({ fromPart: 1, toPart: 10 });
    expect(parts(load('08:30', null))).toEqual({ fromPart: 5, toPart: 12 });
  });

  it('were not made with a lot that came on at the very moment of the count', () => {
    const counts = numbered([count('08:00', 4), count('09:00', 8)]);
    const parts = (span: ReturnType<typeof load>) => partsOf(span, { runs: [run], counts });
    expect(parts(load('06:00', '08:00'))).toEqual({ fromPart: 1, toPart: 4 });
    expect(parts(load('08:00', null))).toEqual({ fromPart: 5, toPart: 12 });
  });

  it('in a new run cannot be older than the run', () => {
    const later = { ...run, startedAt: at('12:00'), endedAt: null };
    const counts = numbered([
      count('08:00', 4),
      { ...count('13:00', 3), runStartedAt: at('12:00') },
    ]);
    const first = load('06:00', '11:30');
    expect(partsOf(first, { runs: [run, later], counts })).toEqual({ fromPart: 1, toPart: 4 });
  });
});

it('are numbered as counted, also when the counts arrive in another order; rework has no number yet', () => {
  const counts = numbered([count('09:00', 1), count('08:00', 1, 1), count('08:30', 0)]);
  expect(counts.map(({ fromPart, toPart }) => [fromPart, toPart])).toEqual([
    [1, 2],
    [3, 3],
  ]);
});
