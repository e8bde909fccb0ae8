import type { OrderCheck } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type TestShop } from '../support/app.js';
import { openOrderDesk, type OrderDesk } from '../support/order-desk.js';
import { boothStep } from '../support/repeat-part.js';

const unknownId = '00000000-0000-4000-8000-000000000000';

let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
});
afterAll(async () => shop.close());

describe('taking an order', () => {
  it.each([
    [0, 'must be 1 or more'],
    [-3, 'must be 1 or more'],
    [12.5, 'must be a whole number of parts'],
    ['12', 'must be a whole number of parts'],
    [100_001, 'must be 100 000 or less'],
  ])('refuses a quantity of %j, naming field, given and allowed', async (quantity, allowed) => {
    const answer = await desk.send(desk.line(unknownId, { quantity }));
    expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
    expect(answer.body.fields).toContainEqual({
      field: 'body.lines.0.quantity',
      given: String(quantity),
      allowed,
    });
  });

  it('refuses a day that does not exist', async () => {
    const answer = await desk.send(desk.line(unknownId, { dueOn: '2026-02-31' }));
    expect(answer.body.fields).toContainEqual({
      field: 'body.lines.0.dueOn',
      given: '2026-02-31',
      allowed: 'must be a real calendar day, written YYYY-MM-DD',
    });
  });

  it('makes a job of each line with running numbers and queues its steps', async () => {
    const steps = [
      boothStep,
      { ...boothStep, number: 2, name: 'Finish', cellKind: 'robot' as const },
    ];
    const two = await desk.part({ steps });
    const before = await desk.take(desk.line((await desk.part()).id));
    const order = await desk.take(
      desk.line(two.id),
      desk.line((await desk.part()).id, { quantity: 5 }),
    );
    expect(order.number).toBe(before.number + 1);
    const last = before.jobs.at(-1)?.number ?? 0;
    expect(order.jobs.map(({ number }) => number)).toEqual([last + 1, last + 2]);
    const [first, second] = order.jobs[0]?.steps ?? [];
    // 30 + 10 + 12 x 4 = 88 min
    expect(first).toMatchObject({ cellCode: 'M1', state: 'waiting', plannedMin: 88 });
    expect(second).toMatchObject({ cellCode: 'R1', state: 'blocked', plannedMin: 88 });
    expect((await desk.office.get(`/api/orders/${order.id}`)).body).toEqual(order);
    const { lanes } = (await desk.office.get('/api/board')).body;
    const queued = lanes.flatMap((lane: { steps: { id: string }[] }) => lane.steps);
    expect(queued.map((step: { id: string }) => step.id)).toContain(first?.id);
  });

  it('keeps the entry time with the order', async () => {
    const order = await desk.take(desk.line((await desk.part()).id));
    const [event] = (await desk.office.get(`/api/history/order/${order.id}`)).body.entries;
    expect(event).toMatchObject({ type: 'order.taken', after: { entryMs: 41_000 } });
  });

  it('answers a repeated command with the first answer, and one order exists', async () => {
    const sent = { ...desk.body(desk.line((await desk.part()).id)), customerOrder: 'PO-ONCE' };
    const once = async () =>
      desk.office.post('/api/orders').set('Idempotency-Key', 'order-0001').send(sent);
    const [first, again] = [await once(), await once()];
    expect([first.status, again.status]).toEqual([200, 200]);
    expect(again.body).toEqual(first.body);
    expect((await desk.office.get('/api/orders?search=PO-ONCE')).body.total).toBe(1);
  });

  it('asks for a reason once the due date has passed, with the weekday', async () => {
    const { id } = await desk.part();
    const late = desk.line(id, { dueOn: '2026-10-02' });
    const answer = await desk.send(desk.line(id), late);
    expect([answer.status, answer.body.code]).toEqual([422, 'NEEDS_REASON']);
    expect(answer.body.message).toContain('Fri 2 Oct 2026');
    expect(answer.body.fields[0].field).toBe('body.lines.1.pastDueReason');
    const job = await desk.takeJob({ ...late, pastDueReason: 'customer knows it is late' });
    expect([job.late, job.pastDueReason]).toEqual([true, 'customer knows it is late']);
  });

  it('takes today in the time zone of the shop as not yet past', async () => {
    const { id } = await desk.part();
    // 22:30 UTC on Monday is half past midnight on Tuesday in the shop.
    shop.clock.set('2026-10-05T22:30:00.000Z');
    const atNight = await shop.as('office');
    const due = async (dueOn: string) =>
      atNight.post('/api/orders').send(desk.body(desk.line(id, { dueOn })));
    expect((await due('2026-10-05')).body.code).toBe('NEEDS_REASON');
    expect((await due('2026-10-06')).status).toBe(200);
    shop.clock.set(monday);
  });

  it('asks whether 1200 is meant where 12 is usual, and takes it once confirmed', async () => {
    const { id } = await desk.part();
    await desk.take(desk.line(id));
    const answer = await desk.send(desk.line(id, { quantity: 1200 }));
    expect([answer.status, answer.body.code]).toEqual([422, 'NEEDS_CONFIRMATION']);
    expect(answer.body.message).toContain('100 times the usual 12?');
    expect(answer.body.fields[0]).toMatchObject({ field: 'body.lines.0.quantity', given: '1200' });
    expect(
      (await desk.takeJob(desk.line(id, { quantity: 1200, quantityConfirmed: true }))).quantity,
    ).toBe(1200);
  });

  it('refuses a cell of another kind and names those that fit', async () => {
    const { id } = await desk.part();
    const at = (cellId: string) => desk.line(id, { cells: [{ stepNumber: 1, cellId }] });
    const robot = await desk.send(at(shop.cells.R1.id));
    expect([robot.status, robot.body.code]).toEqual([409, 'DOES_NOT_FIT']);
    expect(robot.body.fields[0]).toEqual({
      field: 'body.lines.0.cells.0.cellId',
      given: 'R1',
      allowed: 'M1',
    });
    expect((await desk.send(at(unknownId))).body.code).toBe('NOT_FOUND');
    const step = await desk.send(
      desk.line(id, { cells: [{ stepNumber: 3, cellId: shop.cells.M1.id }] }),
    );
    expect(step.body.fields[0].field).toBe('body.lines.0.cells.0.stepNumber');
    expect((await desk.takeJob(at(shop.cells.M1.id))).steps[0]?.cellCode).toBe('M1');
  });

  it('refuses a part without a released revision', async () => {
    const bare = (await desk.office.post('/api/parts').send({ number: 'P-BARE', name: 'Bare' }))
      .body;
    const answer = await desk.send(desk.line(bare.id));
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain('P-BARE');
  });
});

describe('checking a line', () => {
  const check = async (sent: object): Promise<OrderCheck> => {
    const answer = await desk.office.post('/api/orders/check').send(sent);
    expect(answer.status, answer.body.message).toBe(200);
    return answer.body;
  };
  const note = (answer: OrderCheck, topic: string) =>
    answer.notes.find((each) => each.topic === topic);

  it('says what is there, where it could go and when it would be done; nothing is stored', async () => {
    const { id } = await desk.part();
    const before = (await desk.office.get('/api/orders')).body.total;
    const answer = await check(desk.line(id));
    expect(answer).toMatchObject({ revisionState: 'firstTime', lastMade: null, questions: [] });
    expect(answer.dueEcho).toBe('Fri 30 Oct 2026');
    expect(answer.cells).toMatchObject([{ stepNumber: 1, cellCode: 'M1', plannedMin: 88 }]);
    expect(note(answer, 'procedure')).toMatchObject({ state: 'cannotSay', clearedBy: 'qa' });
    expect(note(answer, 'people')?.text).toMatch(/^step 1: \S+ .+ holds a welder's certificate/);
    expect((await desk.office.get('/api/orders')).body.total).toBe(before);
  });

  it('walks the run queue through the calendar at the planning factor', async () => {
    const { id } = await desk.part();
    const manager = await shop.as('manager');
    const { cells } = (await desk.office.get('/api/cells')).body;
    const cell = cells.find((each: { code: string }) => each.code === 'M1');
    const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
      ...{ weekday, startTime: '07:00', endTime: '15:00', breakMin: 0, staffed: true },
    }));
    await manager
      .put(`/api/cells/${cell.id}/calendar`)
      .send({ shifts, dayChanges: [], expectedVersion: cell.version })
      .expect(200);
    const [at] = (await check(desk.line(id))).cells;
    // (queued + 88) / 0.8 minutes at 480 a day, from Monday 7:00
    const days = Math.ceil(((at?.queuedMin ?? 0) + 88) / 0.8 / 480) - 1;
    const workday = Math.floor(days / 5) * 7 + (days % 5);
    const expected = new Date(Date.UTC(2026, 9, 5 + workday)).toISOString().slice(0, 10);
    expect(at?.finishOn).toBe(expected);
  });

  it('reads unchanged since the day it was last made, and asks what it would ask', async () => {
    const { id } = await desk.part();
    await desk.make(await desk.takeJob(desk.line(id)));
    const answer = await check(desk.line(id, { quantity: 1200, dueOn: '2026-10-02' }));
    expect(answer).toMatchObject({ revisionState: 'unchanged', lastMade: '2026-10-05' });
    expect(note(answer, 'revision')?.text).toBe('unchanged since 5 Oct 2026');
    expect(answer.questions.map(({ field }) => field)).toEqual(['pastDueReason', 'quantity']);
    const other = await check(desk.line(id, { orderedRevision: 'C' }));
    expect(other.revisionState).toBe('different');
    expect(note(other, 'revision')).toMatchObject({ state: 'stop' });
  });

  it('compares what the kept set-up needs with what hangs at the robot', async () => {
    const robotStep = { ...boothStep, cellKind: 'robot' as const };
    const { id, revision } = await desk.part({ steps: [robotStep] });
    const item = async (sent: object) => (await desk.office.post('/api/items').send(sent)).body.id;
    const wireItemId = await item({
      ...{ kind: 'wire', designation: 'G3Si1', name: 'solid wire 1.2', unit: 'kg' },
      wireDiameterMm: 1.2,
    });
    const lot = { itemId: wireItemId, number: 'L-1', receivedOn: '2026-10-01', receivedAmount: 15 };
    const { body: received } = await desk.office.post('/api/lots').send(lot);
    const loads = `/api/cells/${shop.cells.R1.id}/loads`;
    await desk.welder.post(loads).send({ lotId: received.id, amount: 1.5 }).expect(200);
    const fixture = await desk.office
      .post('/api/fixtures')
      .send({ code: 'FX-031', place: 'B2-3', condition: 'repair' });
    await desk.office
      .post(`/api/steps/${revision.steps[0]?.id}/set-ups`)
      .send({
        ...{ cellId: shop.cells.R1.id, mechanisation: 'fullyMechanised', torch: '', watchOuts: [] },
        ...{ wireItemId, gasItemId: null, fixtureId: fixture.body.id },
        ...{ programId: null, programRevision: null, contactTipMm: null, preheatC: null },
        ...{ currentA: null, voltageV: null, gasFlowLMin: null },
        ...{ wireSpeedMMin: 8, travelMmMin: 400 },
      })
      .expect(200);
    const answer = await check(desk.line(id));
    expect(answer.cells).toMatchObject([{ cellCode: 'R1' }]);
    // 2 x 500 mm at 400 mm/min: 2.5 min x 8 m/min x 8.878 g/m = 177.6 g a part, 2.13 kg for 12.
    expect(note(answer, 'wire')).toEqual({
      topic: 'wire',
      state: 'ok',
      text: 'step 1: solid wire 1.2: 2.13 kg needed, 1.50 kg on the feeder, 13.50 kg in store: the spool is changed at part 9',
      clearedBy: null,
    });
    expect(note(answer, 'fixture')?.text).toBe('step 1: FX-031 at B2-3, in repair');
    expect(note(answer, 'program')).toMatchObject({ state: 'check' });
    expect(note(answer, 'cell')?.text).toBe('step 1: set-up of 5 Oct 2026 kept at R1');
    // The welder's certificate is for welding by hand.
    expect(note(answer, 'people')).toMatchObject({ state: 'stop' });
  });

  it('stops at a procedure that has no approved revision', async () => {
    const { id } = await desk.part({ steps: [{ ...boothStep, wpsNumber: 'WPS-404' }] });
    expect(note(await check(desk.line(id)), 'procedure')).toEqual({
      topic: 'procedure',
      state: 'stop',
      text: 'step 1: procedure WPS-404 has no approved revision',
      clearedBy: 'qa',
    });
  });
});
