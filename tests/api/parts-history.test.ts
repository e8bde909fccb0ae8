import type { Job, PartDetail } from '@tackboard/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { openOrderDesk, type OrderDesk } from '../support/order-desk.js';

let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  shop.clock.set('2026-10-05T20:00:00.000Z');
  desk = await openOrderDesk(shop);
});
afterAll(async () => shop.close());

/** Pulled at one time of the shop and put down at another, with all parts good but those named. */
async function make(job: Job, [from, to]: readonly [string, string], scrap = 0): Promise<void> {
  shop.clock.set(from);
  const at = `/api/runs/${await desk.pull(job)}`;
  const send = async (what: string, body: object) => {
    const answer = await desk.welder.post(`${at}/${what}`).send(body);
    expect(answer.status, answer.body.message).toBe(200);
  };
  await send('counts', { good: job.quantity, scrap });
  shop.clock.set(to);
  await send('put-down', { batchComplete: true });
}

it('shows the jobs a part was made in, the latest first, and its usual batch', async () => {
  const { id } = await desk.part();
  const first = await desk.takeJob(desk.line(id, { quantity: 12 }));
  const second = await desk.takeJob(desk.line(id, { quantity: 20 }));
  await desk.takeJob(desk.line(id, { quantity: 90 }));
  await make(first, ['2026-10-05T20:10:00.000Z', '2026-10-05T21:20:00.000Z'], 2);
  await make(second, ['2026-10-05T21:30:00.000Z', '2026-10-05T22:15:30.000Z']);

  const part: PartDetail = (await desk.office.get(`/api/parts/${id}`).expect(200)).body;
  const common = { revision: 'B', cellCode: 'M1', customerName: 'Nordhang Conveyors' };
  expect(part.lastMade).toEqual([
    // 22:15:30 in UTC is the next day in the shop.
    {
      ...common,
      jobNumber: second.number,
      on: '2026-10-06',
      quantity: 20,
      realMin: 45.5,
      scrap: 0,
    },
    { ...common, jobNumber: first.number, on: '2026-10-05', quantity: 12, realMin: 70, scrap: 2 },
  ]);
  // The median of 12 and 20; the job that still waits does not count.
  expect(part.usualQuantity).toBe(16);
});
