import { describe, expect, it } from 'vitest';
import { sharedWork, type LoadToTrace, type RunToTrace } from './shared-work.js';

const at = (clock: string) => new Date(`2026-10-05T${clock}:00Z`);
const run = (changes: Partial<RunToTrace> = {}): RunToTrace => ({
  ...{ id: 'run', jobStepId: 'step', cellId: 'R1', personCode: 'O03', shares: true },
  ...{ startedAt: at('07:00'), endedAt: at('11:00') },
  ...changes,
});
const count = (clock: string, parts: number, runId = 'run') => ({
  ...{ runId, parts, happenedAt: at(clock) },
});
const load = (from: string, to: string | null, cellId = 'R1'): LoadToTrace => ({
  ...{ cellId, loadedAt: at(from), unloadedAt: to === null ? null : at(to) },
});
const day = { from: new Date('2026-10-05T00:00:00Z'), to: new Date('2026-10-06T00:00:00Z') };
const ask = (changes: Partial<Parameters<typeof sharedWork>[0]>) =>
  sharedWork({
    runs: [run()],
    counts: [count('09:00', 7), count('10:30', 5)],
    loads: null,
    span: day,
    now: at('12:00'),
    ...changes,
  });
const places = (changes: Partial<Parameters<typeof sharedWork>[0]>) =>
  ask(changes).map(({ fromPart, toPart, parts }) => [fromPart, toPart, parts]);

describe('work that shares a cause', () => {
  it('is the whole step without a lot', () => {
    expect(places({})).toEqual([[1, 12, 12]]);
  });

  it('is parts 8 to 12 for a lot that was loaded after part 7', () => {
    expect(places({ loads: [load('09:05', null)] })).toEqual([[8, 12, 5]]);
    expect(places({ loads: [load('09:00', null)] })).toEqual([[8, 12, 5]]);
  });

  it('is parts 1 to 7 for the lot that was taken off with part 7', () => {
    expect(places({ loads: [load('06:00', '09:00')] })).toEqual([[1, 7, 7]]);
  });

  it('takes both lots for the parts between two counts in which the spool was changed', () => {
    expect(places({ loads: [load('06:00', '09:05')] })).toEqual([[1, 12, 12]]);
  });

  it('is nothing for a lot at another cell, or that came off before', () => {
    expect(places({ loads: [load('06:00', null, 'R2')] })).toEqual([]);
    expect(places({ loads: [load('06:00', '07:00')] })).toEqual([]);
    expect(places({ loads: [] })).toEqual([]);
  });

  it('keeps the place of parts that another person made before', () => {
    const runs = [run({ id: 'first', shares: false, personCode: 'O05' }), run()];
    const counts = [count('08:00', 3, 'first'), count('09:00', 4)];
    const [found] = ask({ runs, counts });
    expect(found).toMatchObject({ personCodes: ['O03'], fromPart: 4, toPart: 7, parts: 4 });
  });

  it('leaves out other days, to the minute', () => {
    const span = { from: at('09:01'), to: at('10:00') };
    expect(places({ span })).toEqual([[8, 12, 5]]);
    expect(places({ span: { from: at('11:00'), to: at('12:00') } })).toEqual([]);
  });

  it('finds work in hand of which nothing is counted yet', () => {
    const open = [run({ endedAt: null })];
    expect(places({ runs: open, counts: [] })).toEqual([[1, 0, 0]]);
    expect(places({ runs: open, counts: [], loads: [load('11:00', null)] })).toEqual([[1, 0, 0]]);
  });
});
