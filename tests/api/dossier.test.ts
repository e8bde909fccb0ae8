import type { Job } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openQualityFloor, type QualityFloor } from '../support/quality-floor.js';
import { readPdf } from '../support/read-pdf.js';

let shop: TestShop;
let floor: QualityFloor;
let job: Job;

/** A batch of 12 at the robot: one leg too small, two pores reworked, one scrapped, ten good in the end. */
beforeAll(async () => {
  shop = await startTestShop();
  floor = await openQualityFloor(shop);
  job = await floor.robot.job();
  const run = await floor.pulled(job);
  const reading = { voltageV: 26.5, preheatC: 20, instrument: 'T-2', place: 'weld 1, 75 mm off' };
  await floor.done(floor.act(run, 'readings', reading));
  await floor.check(run, 5);
  await floor.check(run, 5.7, { note: 'gauge G-2' });
  await floor.done(floor.act(run, 'counts', { good: 11, scrap: 1 }));
  await floor.raise(job, { quantity: 2, weldNumber: 1, description: 'at the start' });
});
afterAll(async () => shop.close());

async function dossier(): Promise<string> {
  const answer = await floor.qa.get(`/api/jobs/${job.id}/dossier.pdf`);
  expect(answer.status, answer.text).toBe(200);
  return (await readPdf(answer.body as Uint8Array)).text;
}

it('says first what is open, and marks every page while something is', async () => {
  const text = await dossier();
  expect(text).toContain('NOT COMPLETE, see what is open');
  const [head] = text.split('Work');
  expect(head).toContain('What is open The job is running. NCR 1 is open.');
});

it('has who made what by which procedure, with readings, lots, checks and findings', async () => {
  const text = await dossier();
  for (const words of [
    ...[`Job ${job.number}, ${job.partNumber}`, 'Revision made B', 'Due Wed 7 Oct 2026'],
    ...['O03 Orla Winterbeck WPS-014 r1', '26.5 V, preheat 20 °C T-2, weld 1, 75 mm off O03'],
    ...['Solid wire 1.2, G3Si1 3.1 L-77', 'weld 1 leg 5 mm, drawn 5.657: outside'],
    ...[
      'weld 1 leg 5.7 mm',
      '1 open 2 parts: surface pore, weld 1, at the start.',
      'None on file.',
    ],
  ])
    expect(text).toContain(words);
});

it('shows the decisions and the closing, and nothing open, once the batch is complete', async () => {
  const [ncr] = (
    await floor.done<{ ncrs: { id: string; version: number }[] }>(
      floor.qa.get(`/api/ncrs?jobId=${job.id}`),
    )
  ).ncrs;
  const decided = await floor.done<{ version: number }>(
    floor.coordinator.post(`/api/ncrs/${ncr?.id}/decisions`).send({
      ...{ disposition: 'scrap', quantity: 2, reason: 'pores through the throat' },
      expectedVersion: ncr?.version,
    }),
  );
  await floor.done(
    floor.qa.post(`/api/ncrs/${ncr?.id}/close`).send({
      ...{ note: 'gas nozzle cleaned', expectedVersion: decided.version },
    }),
  );
  const [run] = (
    await floor.done<{ runs: { id: string }[] }>(floor.qa.get(`/api/jobs/${job.id}/runs`))
  ).runs;
  await floor.done(floor.act(run!, 'put-down', { batchComplete: true }));
  const text = await dossier();
  expect(text).toContain('2 scrap: pores through the throat, Conrad Velleby');
  expect(text).toContain('gas nozzle cleaned');
  expect(text).not.toContain('NOT COMPLETE');
  expect(text).toContain('Nothing on file when this was printed.');
});
