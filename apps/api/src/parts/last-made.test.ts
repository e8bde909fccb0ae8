import { describe, expect, it } from 'vitest';
import type { DoneJob } from './history-store.js';
import { lastMade, usualQuantity } from './last-made.js';

/** Worked by hand. */
describe('when a part was last made', () => {
  const at = (time: string) => new Date(`2026-03-14T${time}Z`);
  const job: DoneJob = {
    number: 143,
    finishedAt: new Date('2026-03-14T23:30Z'),
    revision: 'B',
    quantity: 12,
    customerName: 'Alder',
    steps: [
      {
        cellCode: 'M1',
        scrapCount: 1,
        runs: [{ startedAt: at('07:00'), endedAt: at('07:20') }],
      },
      {
        cellCode: 'R1',
        scrapCount: 2,
        runs: [
          { startedAt: at('08:00'), endedAt: at('08:50') },
          { startedAt: at('09:00'), endedAt: at('09:10:03') },
        ],
      },
    ],
  };
  it('adds up the runs of all steps and names the cell and the shop day of the finish', () => {
    expect(lastMade(job, 'Europe/Berlin')).toEqual({
      ...{ jobNumber: 143, on: '2026-03-15', revision: 'B', quantity: 12, cellCode: 'R1' },
      ...{ customerName: 'Alder', realMin: 80.1, scrap: 3 },
    });
  });
  it('has no minutes where no run is on file', () => {
    const steps = job.steps.map((step) => ({ ...step, runs: [] }));
    expect(lastMade({ ...job, steps }, 'Europe/Berlin').realMin).toBeNull();
  });
  it.each([
    [[], null],
    [[12], 12],
    [[100, 10, 12], 12],
    [[10, 13], 12],
    [[10, 12, 14, 1000], 13],
  ])('the usual batch of %j is %j', (quantities, usual) => {
    expect(usualQuantity(quantities)).toBe(usual);
  });
});
