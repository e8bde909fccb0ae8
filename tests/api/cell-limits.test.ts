import type { Lane } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { addBooth, openOrderDesk, type OrderDesk } from '../support/order-desk.js';
import { boothStep } from '../support/repeat-part.js';

// An invented shop: a booth without limits on file, and one whose table carries 250 kg.
let shop: TestShop;
let desk: OrderDesk;
let small: { id: string };

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
  small = await addBooth(shop, { code: 'M0', name: 'Small booth', loadKg: 250 });
});
afterAll(async () => shop.close());

const heavy = async () => desk.part({ steps: [{ ...boothStep, massKg: 300 }] });
const at = (partId: string, cellId: string) =>
  desk.line(partId, { cells: [{ stepNumber: 1, cellId }] });

describe('a part that is too heavy for a cell', () => {
  it('is proposed another one, and refused this one in words', async () => {
    const light = await desk.takeJob(desk.line((await desk.part()).id));
    // The first by code where the run queues are as long.
    expect(light.steps[0]?.cellCode).toBe('M0');
    const { id } = await heavy();
    const job = await desk.takeJob(desk.line(id));
    expect(job.steps[0]?.cellCode).toBe('M1');
    const refused = await desk.send(at(id, small.id));
    expect([refused.status, refused.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(refused.body.message).toContain('has 300 kg, M0 carries 250 kg. Choose M1');
    const check = await desk.office.post('/api/orders/check').send(desk.line(id));
    const places = check.body.places.map(({ cellCode }: { cellCode: string }) => cellCode);
    expect(new Set(places)).toEqual(new Set(['M1']));
  });

  it('is not moved there on the board', async () => {
    const { id } = await heavy();
    await desk.takeJob(desk.line(id));
    const { lanes } = (await desk.office.get('/api/board')).body;
    const step = lanes.flatMap(({ steps }: Lane) => steps).at(-1);
    const body = { cellId: small.id, beforeStepId: null, expectedVersion: step.version };
    const moved = await desk.office.post(`/api/job-steps/${step.id}/move`).send(body);
    expect([moved.status, moved.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(moved.body.message).toContain('has 300 kg, M0 carries 250 kg. Choose one of M1');
  });
});
