import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { addBooth, openOrderDesk, type OrderDesk } from '../support/order-desk.js';
import { ranges } from '../support/procedures.js';
import { boothStep, fillet } from '../support/repeat-part.js';
import { approveWps } from '../support/robot-shop.js';

// An invented shop: by code, a booth for 141 alone and one where 135 is welded by hand come before the usual one.
let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
  await addBooth(shop, { code: 'M-141', name: 'Stainless booth', processes: ['141'] });
  await addBooth(shop, { code: 'M-hand', name: 'Hand booth', mechanisation: 'manual' });
});
afterAll(async () => shop.close());

const placesOf = async (partId: string): Promise<string[]> => {
  const check = await desk.office.post('/api/orders/check').send(desk.line(partId));
  return check.body.places.map(({ cellCode }: { cellCode: string }) => cellCode);
};

describe('where a step is proposed to be made', () => {
  it('is a cell that has the process of its welds', async () => {
    const { id } = await desk.part();
    expect(new Set(await placesOf(id))).toEqual(new Set(['M-hand', 'M1']));
    expect((await desk.takeJob(desk.line(id))).steps[0]?.cellCode).toBe('M-hand');
  });

  it('is a cell with the mechanisation that its approved procedure allows', async () => {
    await approveWps(shop, { number: 'WPS-014', ranges });
    const { id } = await desk.part({ steps: [{ ...boothStep, wpsNumber: 'WPS-014' }] });
    expect(new Set(await placesOf(id))).toEqual(new Set(['M1']));
    expect((await desk.takeJob(desk.line(id))).steps[0]?.cellCode).toBe('M1');
  });

  it('is what the office says, also where the tool would not propose it', async () => {
    const { id } = await desk.part({ steps: [{ ...boothStep, wpsNumber: 'WPS-014' }] });
    const { cells } = (await desk.office.get('/api/cells')).body;
    const hand = cells.find(({ code }: { code: string }) => code === 'M-hand');
    const line = desk.line(id, { cells: [{ stepNumber: 1, cellId: hand.id }] });
    expect((await desk.takeJob(line)).steps[0]?.cellCode).toBe('M-hand');
  });

  it('is any cell of its kind where none has the process: the order is still taken', async () => {
    const { id } = await desk.part({
      welds: [{ ...fillet, process: '111' }],
    });
    expect((await desk.takeJob(desk.line(id))).steps[0]?.cellCode).toMatch(/^M/);
  });
});
