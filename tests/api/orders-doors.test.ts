import type { Job, Order } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type TestShop } from '../support/app.js';
import { firstFour } from '../support/first-four.js';
import { openOrderDesk, type OrderDesk } from '../support/order-desk.js';

const unknownId = '00000000-0000-4000-8000-000000000000';
const lineOfUnknownPart = {
  partId: unknownId,
  orderedRevision: 'B',
  quantity: 12,
  dueOn: '2026-10-30',
};

let shop: TestShop;
let desk: OrderDesk;

beforeAll(async () => {
  shop = await startTestShop();
  desk = await openOrderDesk(shop);
});
afterAll(async () => shop.close());

describe('doors', () => {
  let made: { part: string; order: Order; job: Job; edit: Job; cancel: Job; held: Job };
  beforeAll(async () => {
    const { id } = await desk.part();
    const order = await desk.take(
      desk.line(id),
      desk.line(id),
      desk.line(id),
      desk.line(id, { orderedRevision: 'C' }),
    );
    const [job, edit, cancel, held] = order.jobs as [Job, Job, Job, Job];
    made = { part: id, order, job, edit, cancel, held };
  });
  const doors = () => shop;
  const reason = 'customer moved the date';

  firstFour('orders', doors, {
    method: 'get',
    path: () => '/api/orders',
    allowed: 'office',
    refused: 'welder',
    malformed: { path: '/api/orders?limit=0', field: 'query.limit' },
  });
  firstFour('order', doors, {
    method: 'get',
    path: () => `/api/orders/${made.order.id}`,
    allowed: 'qa',
    refused: 'welder',
    malformed: { path: '/api/orders/12', field: 'params.orderId' },
  });
  firstFour('check a line', doors, {
    method: 'post',
    path: () => '/api/orders/check',
    body: () => desk.line(made.part),
    allowed: 'office',
    refused: 'qa',
    malformed: { body: { orderedRevision: 'B' }, field: 'body.partId' },
  });
  firstFour('take an order', doors, {
    method: 'post',
    path: () => '/api/orders',
    body: () => desk.body(desk.line(made.part)),
    allowed: 'office',
    refused: 'welder',
    malformed: { body: { customerOrder: '', lines: [] }, field: 'body.customerOrder' },
  });
  firstFour('job', doors, {
    method: 'get',
    path: () => `/api/jobs/${made.job.id}`,
    allowed: 'welder',
    malformed: { path: '/api/jobs/7', field: 'params.jobId' },
  });
  firstFour('change a job', doors, {
    method: 'patch',
    path: () => `/api/jobs/${made.edit.id}`,
    body: () => ({ dueOn: '2026-11-06', reason, expectedVersion: 1 }),
    allowed: 'manager',
    refused: 'qa',
    malformed: { body: { dueOn: '6 Nov', reason, expectedVersion: 1 }, field: 'body.dueOn' },
  });
  firstFour('release a job', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.held.id}/release`,
    body: () => ({ changeNote: 'both drawings compared, hole pattern only', expectedVersion: 1 }),
    allowed: 'coordinator',
    refused: 'office',
    malformed: { body: { changeNote: 'fine', expectedVersion: 1 }, field: 'body.changeNote' },
  });
  firstFour('cancel a job', doors, {
    method: 'post',
    path: () => `/api/jobs/${made.cancel.id}/cancel`,
    body: () => ({ reason: 'customer withdrew', expectedVersion: 1 }),
    allowed: 'office',
    refused: 'coordinator',
    malformed: { body: { reason: 'x', expectedVersion: 1 }, field: 'body.reason' },
  });
  firstFour('kit', doors, {
    method: 'post',
    path: () => `/api/job-steps/${made.job.steps[0]?.id}/kit`,
    body: () => ({ complete: false, note: 'side plates missing' }),
    allowed: 'welder',
    malformed: { body: { complete: 'no' }, field: 'body.complete' },
  });

  it.each([
    ['get', `/api/orders/${unknownId}`, undefined],
    ['get', `/api/jobs/${unknownId}`, undefined],
    ['patch', `/api/jobs/${unknownId}`, { quantity: 3, reason, expectedVersion: 1 }],
    ['post', `/api/jobs/${unknownId}/cancel`, { reason, expectedVersion: 1 }],
    ['post', `/api/job-steps/${unknownId}/kit`, { complete: true }],
    ['post', '/api/orders/check', lineOfUnknownPart],
    [
      'post',
      '/api/orders',
      { customerId: unknownId, customerOrder: '1', lines: [lineOfUnknownPart] },
    ],
  ] as const)('%s %s names what is not there', async (method, path, sent) => {
    const answer = await desk.office[method](path).send(sent);
    expect([answer.status, answer.body.code]).toEqual([404, 'NOT_FOUND']);
    expect(answer.body.message).toContain(unknownId);
  });
});
