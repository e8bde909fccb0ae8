import type { Lane, QueuedStep } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { placesOf, scannedHere } from './scan.js';

const jobId = '01998f2c-5d5e-7abc-8def-0123456789ab';
const step = (of: Partial<QueuedStep>) =>
  ({ jobId, jobNumber: 1042, stepName: 'Weld', state: 'waiting', ...of }) as QueuedStep;

describe('a code at the cell', () => {
  const waiting = step({ id: 'second' });
  const steps = [step({ jobId: 'other', jobNumber: 7 }), step({ state: 'blocked' }), waiting];

  it('opens the step of the job by the address on its traveler and by its number', () => {
    for (const code of [`/orders/jobs/${jobId}`, `http://board:3000/orders/jobs/${jobId}`, '1042'])
      expect(scannedHere(code, steps)).toEqual({ kind: 'here', step: waiting });
  });

  it('gives the one in work before one that waits', () => {
    const held = step({ state: 'held' });
    expect(scannedHere('1042', [waiting, held])).toEqual({ kind: 'here', step: held });
  });

  it('tells a foreign code from a job that is not here', () => {
    expect(scannedHere('4006381333931', steps)).toEqual({ kind: 'foreign' });
    expect(scannedHere('1043', steps)).toEqual({ kind: 'notHere' });
  });
});

it('finds the cells where a job waits', () => {
  const lanes = [
    { cellCode: 'R1', steps: [step({ jobNumber: 7, jobId: 'other' })] },
    { cellCode: 'M1', steps: [step({ stepName: 'Tack' })] },
  ] as unknown as Lane[];
  expect(placesOf('1042', { lanes })).toEqual([
    { jobNumber: 1042, cellCode: 'M1', stepName: 'Tack' },
  ]);
  expect(placesOf('9', { lanes })).toEqual([]);
});
