import type { Job } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { monday, startTestShop, type Agent, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { addCustomer, addReleasedPart, boothStep } from '../support/repeat-part.js';
import { signedIn } from '../support/signed-in.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
const reason = 'certificate renewed, paper follows this week';
let shop: TestShop;
let office: Agent;
let coordinator: Agent;
let welder: Agent;
let customerId: string;
let serial = 0;

beforeAll(async () => {
  shop = await startTestShop();
  office = await signedIn(shop, 'office');
  coordinator = await signedIn(shop, 'coordinator');
  welder = await signedIn(shop, 'welder');
  customerId = (await addCustomer(shop, 'Nordhang Conveyors')).id;
});
afterAll(async () => shop.close());

/** A job whose only step the welder, who holds no certificate, may not start. */
async function job(options: { coded?: boolean; wpsNumber?: string } = {}): Promise<Job> {
  const { coded = false, wpsNumber = null } = options;
  const steps = [{ ...boothStep, wpsNumber }];
  const part = await addReleasedPart(shop, { number: `Q-${(serial += 1)}`, coded, steps });
  const line = { partId: part.id, orderedRevision: 'B', quantity: 4, dueOn: '2026-10-30' };
  const order = await office
    .post('/api/orders')
    .send({ customerId, customerOrder: '1', lines: [line] });
  expect(order.status, order.body.message).toBe(200);
  return order.body.jobs[0];
}
const stepId = ({ steps: [step] }: Job) => step?.id ?? '';
const input = (changes: object = {}) => ({
  rule: 'person',
  reason,
  forPersonId: shop.people.welder.id,
  days: 7,
  ...changes,
});
const sign = async (of: Job, changes: object = {}) =>
  coordinator.post(`/api/job-steps/${stepId(of)}/overrides`).send(input(changes));
const pull = async (of: Job) =>
  welder.post(`/api/cells/${of.steps[0]?.cellId}/pull`).send({ jobStepId: stepId(of) });

describe('doors', () => {
  let made: Job;
  beforeAll(async () => {
    made = await job();
  });

  firstFour('overrides', () => shop, {
    method: 'get',
    path: () => `/api/overrides?jobId=${made.id}`,
    allowed: 'welder',
    malformed: { path: '/api/overrides?jobId=7', field: 'query.jobId' },
  });
  firstFour('sign an override', () => shop, {
    method: 'post',
    path: () => `/api/job-steps/${stepId(made)}/overrides`,
    body: () => input(),
    allowed: 'coordinator',
    refused: 'qa',
    malformed: { body: { rule: 'person', reason: 'is fine', days: 7 }, field: 'body.reason' },
  });

  it('refuses more than 30 days and less than one', async () => {
    for (const [days, allowed] of [
      [31, 'must be 30 days or less'],
      [0, 'must be 1 day or more'],
    ] as const) {
      const answer = await sign(made, { days });
      expect(answer.body.fields).toContainEqual({
        field: 'body.days',
        given: String(days),
        allowed,
      });
    }
  });

  it('names a step or a person that is not there', async () => {
    const step = await coordinator.post(`/api/job-steps/${unknownId}/overrides`).send(input());
    expect([step.status, step.body.code]).toEqual([404, 'NOT_FOUND']);
    const person = await sign(made, { forPersonId: unknownId });
    expect([person.status, person.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(person.body.fields[0].field).toBe('body.forPersonId');
  });
});

// Which rule gates and which refuses is the shop's own policy, not that of a code.
describe('an override', () => {
  it('lets the one person pass the gate, until it expires, and shows in the history', async () => {
    const of = await job();
    expect((await pull(of)).status).toBe(409);
    const signed = await sign(of);
    expect(signed.body).toMatchObject({
      ...{ jobId: of.id, jobStepId: stepId(of), rule: 'person', reason },
      signedBy: shop.people.coordinator.name,
      forPerson: shop.people.welder.name,
      signedAt: monday,
      expiresAt: '2026-10-12T05:00:00.000Z',
    });
    const listed = (await welder.get(`/api/overrides?jobId=${of.id}`)).body;
    expect(listed.overrides).toEqual([signed.body]);
    const [event] = (await welder.get(`/api/history/override/${signed.body.id}`)).body.entries;
    expect(event).toMatchObject({ type: 'override.signed', meaning: 'waived', reason });

    shop.clock.set('2026-10-12T05:00:00.000Z');
    welder = await shop.as('welder');
    expect((await pull(of)).status).toBe(409);
    shop.clock.set(monday);
    expect((await pull(of)).status).toBe(200);
  });

  it('is never signed for oneself', async () => {
    const of = await job();
    const answer = await sign(of, { forPersonId: shop.people.coordinator.id });
    expect([answer.status, answer.body.code]).toEqual([403, 'NOT_ALLOWED']);
    expect(answer.body.message).toContain('Another coordinator');
  });

  it('cannot pass a refusal: no approved procedure', async () => {
    const of = await job({ wpsNumber: 'WPS-404' });
    const answer = await sign(of, { rule: 'wps' });
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain('WPS-404');
    expect(answer.body.fields[0]).toMatchObject({ field: 'body.rule', given: 'wps' });
  });

  it('cannot pass a missing certificate on a coded part', async () => {
    const answer = await sign(await job({ coded: true }));
    expect([answer.status, answer.body.code]).toEqual([409, 'NOT_NOW']);
    expect(answer.body.message).toContain('cannot be overridden');
  });

  it('is not signed for what does not stop the step', async () => {
    const of = await job();
    expect((await sign(of, { rule: 'kit' })).body.code).toBe('NOT_NOW');
    expect((await sign(of, { rule: 'weather' })).body.code).toBe('NOT_NOW');
    const { body } = await welder.get(`/api/overrides?jobId=${of.id}`);
    expect(body.overrides).toEqual([]);
  });

  it('is not signed for a job that is cancelled', async () => {
    const of = await job();
    await office
      .post(`/api/jobs/${of.id}/cancel`)
      .send({ reason: 'customer withdrew', expectedVersion: 1 })
      .expect(200);
    expect((await sign(of)).body.code).toBe('NOT_NOW');
  });
});
