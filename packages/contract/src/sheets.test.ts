import { expect, it } from 'vitest';
import { jobAddressOf, jobNamedBy } from './sheets.js';

const jobId = '01998f2c-5d5e-7abc-8def-0123456789ab';

it('finds a job by what its traveler carries, with or without the host', () => {
  expect(jobNamedBy(jobAddressOf(jobId))).toEqual({ jobId });
  expect(jobNamedBy(` http://board.shop:3000/orders/jobs/${jobId}\n`)).toEqual({ jobId });
});

it('finds a job by its number as it is typed', () => {
  expect(jobNamedBy(' 1042 ')).toEqual({ jobNumber: 1042 });
});

it.each(['', 'W07', '10.5', '-3', '/orders/jobs/1042', `/parts/${jobId}`, '4006381333931'])(
  'takes %j for no job',
  (code) => {
    expect(jobNamedBy(code)).toBeNull();
  },
);
